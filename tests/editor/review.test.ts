import { linkSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Frame } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessibilityFaults } from './host/axe.ts';
import type { EditorHost } from './host/prepare.ts';
import { harbourFrames } from './host/sample.ts';
import { underVersionControl } from './host/version-control.ts';
import { withHost } from './host/with-host.ts';
import { openWorkbench, runCommand, webviewWith, type Workbench } from './host/workbench.ts';

const SLOW = 60_000;
const COMMAND = 'Selvedge: Compare the Crops with an Earlier Revision';

await withHost(describeReviewStory);

/** What became of the crops since a commit, in a real workbench with a real repository. Pictures are in dist/tests/pictures. */
function describeReviewStory(host: EditorHost): void {
  describe.each([['light'], ['dark']])('comparing with an earlier revision in a %s workbench', (look) => {
    reviewStory(host, look);
  });

  it('a comparison that is given up leaves no page and no complaint', async () => {
    const photo = await sharp({ create: { width: 6000, height: 4000, channels: 3, background: '#808080' } }).jpeg().toBuffer(); // prettier-ignore
    const workbench = await openWorkbench(host, 'long/crops.yaml', {}, { arrange: (folder) => { longSession(join(folder, 'long'), photo); } }); // prettier-ignore
    try {
      const { page } = workbench;
      page.setDefaultTimeout(SLOW);
      await page.locator('.monaco-editor', { hasText: '5400 × 3600 px' }).first().waitFor();
      await runCommand(page, COMMAND);
      await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: 'The last commit' }).first().click();
      const toast = page
        .locator('.notification-list-item')
        .filter({ hasText: /Comparing the crops.*\d+ of \d+ frames/ });
      await toast.waitFor();
      const tab = page.locator('.tab').filter({ hasText: /Crops (Compared|Since)/ });
      await tab.waitFor();
      await workbench.shoot('review-4-comparing');
      await toast.locator('.monaco-button', { hasText: 'Cancel' }).click();
      await toast.waitFor({ state: 'detached' });
      await tab.waitFor({ state: 'detached' });
      expect(await page.locator('.notification-list-item').count()).toBe(0);
      await page.locator('.tab.active').filter({ hasText: 'crops.yaml' }).waitFor();
    } finally {
      await workbench.close();
    }
  });
}

/** Many large photos, each with another crop than it was committed with: comparing them takes a while. */
function longSession(folder: string, photo: Buffer): void {
  mkdirSync(folder);
  writeFileSync(join(folder, '0.jpg'), photo);
  const names = Array.from({ length: 60 }, (_, index) => `${index}.jpg`);
  for (const name of names.slice(1)) linkSync(join(folder, '0.jpg'), join(folder, name));
  const write = (crop: string): void => {
    const frames = names.map((name) => `  - photo: ${name}\n    crop: ${crop}\n`);
    writeFileSync(join(folder, 'crops.yaml'), `selvedge: 1\nframes:\n${frames.join('')}`);
  };
  writeFileSync(join(folder, '.gitignore'), '*.jpg\n');
  write('{ x: 0, y: 0, w: 0.9, h: 0.9 }');
  underVersionControl(folder);
  write('{ x: 0.1, y: 0.1, w: 0.9, h: 0.9 }');
}

function reviewStory(host: EditorHost, look: string): void {
  let workbench: Workbench;
  let page: Frame;
  const eventually = <Value>(get: () => Value | Promise<Value>) => expect.poll(get, { timeout: SLOW });
  const input = () => workbench.page.locator('.quick-input-widget input.input');
  const row = (text: string) =>
    workbench.page.locator('.quick-input-list .monaco-list-row').filter({ hasText: text }).first();
  const article = (name: string) => page.locator('article').filter({ has: page.locator('h2').getByText(name, { exact: true }) }); // prettier-ignore

  beforeAll(async () => {
    workbench = await openWorkbench(host, 'harbour/crops.yaml', {}, { arrange: (folder) => { underVersionControl(join(folder, 'harbour')); } }); // prettier-ignore
    workbench.page.setDefaultTimeout(SLOW);
    await workbench.page.locator('.monaco-editor .squiggly-warning').first().waitFor();
    if (look === 'dark') await runCommand(workbench.page, 'Preferences: Toggle between Light/Dark Themes');
    await workbench.page.locator(`.monaco-workbench.${look === 'dark' ? 'vs-dark' : 'vs'}`).waitFor();
    await runCommand(workbench.page, 'Selvedge: Fix All Frames in This File');
    await workbench.page.locator('.tab.dirty').waitFor();
  });

  afterAll(async () => {
    await workbench.close();
  });

  it('offers the commits and branches of the repository, and any that is typed', async () => {
    await runCommand(workbench.page, COMMAND);
    await row('As it came').waitFor();
    await row('The last commit').waitFor();
    await workbench.shoot(`${look}-review-1-revisions`);
    await input().fill('no-such-branch');
    await row('as typed').waitFor();
    await workbench.page.keyboard.press('Enter');
    await workbench.page
      .locator('.notification-list-item')
      .filter({ hasText: 'There is no commit "no-such-branch"' })
      .first()
      .waitFor();
    await runCommand(workbench.page, 'Notifications: Clear All Notifications');
  });

  it('shows what changed in the text that is not saved, with pictures', async () => {
    await runCommand(workbench.page, COMMAND);
    await row('The last commit').waitFor();
    await input().fill('HEAD');
    await row('as typed').waitFor();
    await workbench.page.keyboard.press('Enter');
    page = await webviewWith(workbench.page, 'article .name button');
    expect(await page.locator('header').textContent()).toContain('it is not saved');
    const changed = await page.locator('article').count();
    expect(changed).toBeGreaterThan(5);
    expect(changed).toBeLessThan(harbourFrames());
    expect(await page.locator('header p').first().textContent()).toContain(`${changed} frames changed`);
    await eventually(() =>
      page.evaluate('[...document.images].every((image) => image.complete && image.naturalWidth > 0)'),
    ).toBe(true);
    expect(await page.locator('[data-side=now] img').count()).toBe(changed);
    // The page's own script runs: it shows this.
    expect(await page.locator('details.over:visible').count()).toBe(changed);
    await workbench.shoot(`${look}-review-2-page`);
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('the page runs, paints and loads nothing but its own', async () => {
    const policy = (await page.locator('meta[http-equiv=Content-Security-Policy]').getAttribute('content'))!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe|data:|\*(?!\.vscode-cdn\.net)/);
  });

  it('a frame leads to its line in the text', async () => {
    await article('boardwalk-04.jpg').getByRole('button', { name: 'Go to Its Line: boardwalk-04.jpg' }).click();
    await workbench.page.locator('.active-line-number').getByText('34', { exact: true }).waitFor();
  });

  it('says when the text is another one by now, and compares again', async () => {
    await workbench.page.keyboard.press('Control+Z');
    await runCommand(workbench.page, 'File: Save All Files');
    await eventually(() => workbench.page.locator('.tab.dirty').count()).toBe(0);
    page = await webviewWith(workbench.page, '#outdated');
    await workbench.shoot(`${look}-review-3-outdated`);
    await page.getByRole('button', { name: 'Compare Again' }).click();
    page = await webviewWith(workbench.page, 'main > p');
    await eventually(() => page.locator('main > p').textContent()).toBe('No frame is another one than it was.');
  });
}
