import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { typeFrame } from './host/go-to-frame.ts';
import { MatBench, WAIT } from './host/mat.ts';
import type { EditorHost } from './host/prepare.ts';
import { tabTo } from './host/tab-to.ts';
import { withHost } from './host/with-host.ts';
import { chooseActionAt, openWorkbench, runCommand, webviewWith, type Workbench } from './host/workbench.ts';

await withHost(describeKeyboardStory);

/** The whole job in one go and without a pointer: from the list of problems to the contact sheet. */
function describeKeyboardStory(host: EditorHost): void {
  describe('with the keyboard alone', () => {
    it('from a problem to its fix, to all fixes and back, to the mat and the contact sheet', async () => {
      const workbench = await openWorkbench(host, 'harbour/crops.yaml');
      workbench.page.setDefaultTimeout(WAIT.timeout);
      try {
        await inTheText(workbench);
        await onTheMat(workbench);
        await onTheSheet(workbench);
      } catch (error) {
        await workbench.shoot('keyboard-failed');
        throw error;
      } finally {
        await workbench.close();
      }
    });
  });
}

const manifest = ({ workspace }: Workbench): string => readFileSync(join(workspace, 'harbour', 'crops.yaml'), 'utf8');

async function save({ page }: Workbench): Promise<void> {
  await page.locator('.tab.dirty').waitFor();
  await runCommand(page, 'File: Save All Files');
  await page.locator('.tab.dirty').waitFor({ state: 'detached' });
}

/** Puts the cursor on a problem of the list, by its words. */
async function goToProblem({ page }: Workbench, words: string): Promise<void> {
  await page.keyboard.press('Control+Shift+M');
  const list = page.locator('.markers-panel-container .monaco-list');
  await list.locator('.monaco-list-row').filter({ hasText: words }).first().waitFor();
  await runCommand(page, 'Problems: Focus on Problems View');
  const focused = list.locator('.monaco-list-row.focused');
  await page.keyboard.press('Home');
  for (let step = 0; step < 120; step++) {
    await page.keyboard.press('ArrowDown');
    if (((await focused.first().textContent().catch(() => '')) ?? '').includes(words)) break; // prettier-ignore
  }
  await page.keyboard.press('Enter');
}

async function inTheText(workbench: Workbench): Promise<void> {
  const { page } = workbench;
  await page.locator('.monaco-editor .squiggly-warning').first().waitFor();
  const original = manifest(workbench);
  await chooseActionAt(page, 'Nearest clean crop', () => goToProblem(workbench, 'face of person'));
  await save(workbench);
  const fixed = manifest(workbench);
  const changed = fixed.split('\n').filter((line, index) => line !== original.split('\n')[index]); // prettier-ignore
  expect(changed).toHaveLength(1);
  await chooseActionAt(page, 'Fix all frames in this file', () => goToProblem(workbench, 'The turned photo'));
  // Somebody hears of every frame that shows less of its person now.
  await page.locator('.notifications-toasts').getByText(/\d+ frames? came down a length: /).waitFor(); // prettier-ignore
  await workbench.shoot('keyboard-1-all-fixed');
  await save(workbench);
  expect(manifest(workbench)).not.toBe(fixed);
  await page.keyboard.press('Control+1');
  await page.keyboard.press('Control+Z');
  await save(workbench);
  expect(manifest(workbench)).toBe(fixed);
}

async function onTheMat(workbench: Workbench): Promise<void> {
  const { page } = workbench;
  const { keyboard } = page;
  const before = manifest(workbench);
  await typeFrame(page, 'boardwalk-06.jpg');
  const bench = await MatBench.on(workbench);
  await bench.shown('boardwalk-06.jpg');
  await keyboard.press('Control+2');
  await expect.poll(() => bench.mat.evaluate<boolean>('document.hasFocus()'), WAIT).toBe(true);
  await bench.tabTo(/^upper edge$/);
  for (let step = 0; step < 3; step++) await keyboard.press('Shift+ArrowDown');
  expect(await bench.saved(before)).toHaveLength(1);
  await bench.tabTo(/^half length,/);
  const moved = manifest(workbench);
  await keyboard.press('Enter');
  await bench.mat.locator('#notice', { hasText: 'from full length to half length' }).waitFor(WAIT);
  await workbench.shoot('keyboard-2-mat');
  expect(await bench.saved(moved)).toHaveLength(1);
}

async function onTheSheet(workbench: Workbench): Promise<void> {
  const { page } = workbench;
  const { keyboard } = page;
  const before = manifest(workbench);
  await keyboard.press('Control+1');
  await runCommand(page, 'Selvedge: Open the Contact Sheet');
  const sheet = await webviewWith(page, '#grid .cell');
  await expect.poll(() => sheet.evaluate<boolean>('document.hasFocus()'), WAIT).toBe(true);
  const counts = (): Promise<string | null> => sheet.locator('#counts').textContent();
  await tabTo(page, sheet, /^Rule/, 'Shift+Tab');
  await keyboard.type('joint-cut');
  await expect.poll(() => sheet.getByLabel('Rule').inputValue(), WAIT).toBe('joint-cut');
  const shown = Number.parseInt((await counts())!, 10);
  expect(shown).toBeGreaterThan(1);
  await tabTo(page, sheet, /^Frames/);
  await keyboard.press('Control+A');
  await expect.poll(counts, WAIT).toContain(`${shown} selected`);
  await tabTo(page, sheet, /^Fix$/, 'Shift+Tab');
  await keyboard.press('Enter');
  await sheet.locator('#review-rows .row').first().waitFor();
  await workbench.shoot('keyboard-3-review');
  await tabTo(page, sheet, /^Write \d+ New Crops?$/);
  await keyboard.press('Enter');
  await expect.poll(() => sheet.locator('#told').textContent(), WAIT).toContain('changed.');
  await save(workbench);
  expect(manifest(workbench)).not.toBe(before);
}
