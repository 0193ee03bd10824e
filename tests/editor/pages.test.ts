import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CLEAN, folderWith, HEAD, KNEES, peopleFile, picture, selvedge } from '../cli/workspace.ts';
import { TestRepository } from '../history/repository.ts';
import { startBrowser } from './host/browser.ts';
import { prepareHost } from './host/prepare.ts';

/*
 * The pages that the command line writes, opened from the disk in a real browser. Outside truth: axe-core's rules of
 * accessibility (WCAG 2.x), the browser's own enforcement of the content security policy.
 */
const host = await prepareHost().catch((error: unknown) => (error instanceof Error ? error.message : String(error)));
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const MINUTE = 60_000;

/** In a file's name a session's author may write anything but a slash and a line break. */
const HOSTILE = `"><img src=x onerror=window.hit=1><script>window.hit=1<'script>&amp;.jpg`;

if (typeof host === 'string') {
  console.warn(`\nNO BROWSER, so no page was looked at: ${host}\n`);
  describe('pages in a real browser', () => {
    it.skip(`SKIPPED, no browser: ${host.split('\n')[0]!}`, () => undefined);
  });
} else {
  describe('pages in a real browser', () => {
    let browser: Browser;
    const pages: { sheet: string; review: string } = { sheet: '', review: '' };

    beforeAll(async () => {
      browser = await startBrowser(host);
      Object.assign(pages, await writePages());
    });
    afterAll(() => browser.close());

    /** Opens a page; what the browser complains about, and every address it asks for, is collected. */
    async function open(file: string, options: BrowserContextOptions = {}) {
      const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, ...options });
      const page = await context.newPage();
      const complaints: string[] = [];
      const addresses: string[] = [];
      page.on('console', (message) => complaints.push(message.text()));
      page.on('pageerror', (error) => complaints.push(error.message));
      page.on('request', (request) => addresses.push(request.url()));
      await page.goto(pathToFileURL(file).href, { timeout: MINUTE });
      return { page, complaints, addresses, close: () => context.close() };
    }

    async function violations(page: Page): Promise<string[]> {
      await page.evaluate(AXE);
      return page.evaluate(async () => {
        const { axe } = globalThis as unknown as { axe: { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } }; // prettier-ignore
        const found = await axe.run();
        return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
      });
    }

    it.each(['light', 'dark'] as const)(
      'both pages pass axe-core, load nothing and run nothing foreign (%s)',
      async (colorScheme) => {
        for (const file of Object.values(pages)) {
          const { page, complaints, addresses, close } = await open(file, { colorScheme });
          expect(complaints).toEqual([]);
          expect(addresses.filter((address) => !address.startsWith('data:'))).toEqual([pathToFileURL(file).href]);
          expect(await page.evaluate(() => (globalThis as { hit?: number }).hit)).toBeUndefined();
          expect(await page.getByText(HOSTILE, { exact: false }).count()).toBeGreaterThan(0);
          expect(await page.locator('img[src="x"]').count()).toBe(0);
          const overlay = page.locator('details.over summary').first();
          if ((await overlay.count()) > 0) await overlay.click();
          expect(await violations(page)).toEqual([]);
          // Nothing is wider than the page.
          const [wide, room] = await page.evaluate<[number, number]>(
            '[document.documentElement.scrollWidth, innerWidth]',
          );
          expect(wide).toBeLessThanOrEqual(room);
          await close();
        }
      },
    );

    it('the slider lays then over now, moved by keys alone', async () => {
      const { page, close } = await open(pages.review);
      const article = page.locator('article').filter({ hasText: 'a.jpg' }).first();
      await article.locator('summary').focus();
      await page.keyboard.press('Enter');
      const slider = article.getByRole('slider');
      await slider.focus();
      const cut = (): Promise<string> =>
        page.evaluate<string>(`getComputedStyle(document.querySelector('.stage > .then')).clipPath`);
      await page.keyboard.press('Home');
      await expect.poll(cut, { timeout: MINUTE }).toBe('inset(0px 100% 0px 0px)');
      await page.keyboard.press('End');
      await expect.poll(cut, { timeout: MINUTE }).toBe('inset(0px 0% 0px 0px)');
      await page.keyboard.press('ArrowLeft');
      await expect.poll(cut, { timeout: MINUTE }).toBe('inset(0px 1% 0px 0px)');
      expect(await slider.getAttribute('aria-valuetext')).toBe('99 percent then');
      await close();
    });

    it('without a script, and on paper, then and now stand side by side', async () => {
      const { page, close } = await open(pages.review, { javaScriptEnabled: false });
      const article = page.locator('article').first();
      const boxes = await Promise.all(
        ['then', 'now'].map((side) => article.locator(`[data-side=${side}]`).boundingBox({ timeout: MINUTE })),
      );
      expect(boxes[0]!.x + boxes[0]!.width).toBeLessThanOrEqual(boxes[1]!.x);
      expect(await article.locator('details').isVisible()).toBe(false);
      await close();
      const printed = await open(pages.review);
      await printed.page.emulateMedia({ media: 'print' });
      expect(await printed.page.locator('details:visible').count()).toBe(0);
      await printed.close();
    });

    it('the sheet shows on demand only frames with errors or warnings', async () => {
      const { page, close } = await open(pages.sheet);
      const shown = (): Promise<number> => page.locator('article:visible').count();
      expect(await shown()).toBe(4);
      await page.getByLabel('those with errors or warnings').check();
      await expect.poll(shown, { timeout: MINUTE }).toBe(3);
      await close();
    });
  });
}

/** A session with a photo, two that are missing (one by a hostile name) and a turned frame; then some of it changed. */
async function writePages(): Promise<{ sheet: string; review: string }> {
  const photos = ['a.jpg', 'b.jpg', HOSTILE];
  const frames = (crop: string): string =>
    [
      `  - photo: a.jpg\n    crop: ${crop}`,
      `  - photo: a.jpg\n    straighten: 2\n    crop: ${CLEAN}\n    note: "<b>wider?</b>"`,
      `  - photo: b.jpg\n    crop: ${CLEAN}`,
      `  - photo: ${JSON.stringify(HOSTILE)}\n    crop: ${crop}\n`,
    ].join('\n');
  const people = peopleFile(Object.fromEntries(photos.map((photo) => [photo, 'standing' as const])));
  const made = new TestRepository({ 'crops.yaml': HEAD + frames(CLEAN), 'crops.people.jsonl': people });
  made.write('crops.yaml', HEAD + frames(KNEES).replace('straighten: 2', 'straighten: -1'));
  made.write('a.jpg', await picture(400, 600));
  const to = folderWith({});
  await selvedge('review', made.path('crops.yaml'), '--since', 'HEAD', '--to', to);
  const { out } = await selvedge('check', '--format', 'html', made.path('crops.yaml'), '--rule', 'joint-cut');
  const sheet = join(to, 'sheet.html');
  writeFileSync(sheet, out);
  return { sheet, review: join(to, 'review.html') };
}
