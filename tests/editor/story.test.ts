import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { prepareHost } from './host/prepare.ts';
import { chooseAction, openWorkbench, runCommand, type Workbench } from './host/workbench.ts';

/*
 * What a photographer does, done in a real workbench by a real browser. Pictures of each step are kept in
 * dist/tests/pictures.
 */
const host = await prepareHost().catch((error: unknown) => String(error));

describe.each([['light'], ['dark']])('the story in a %s workbench', (name) => {
  if (typeof host === 'string') {
    it.skip(`SKIPPED, no editor host: ${host}`, () => undefined);
    return;
  }
  let workbench: Workbench;
  const manifest = (): string => readFileSync(join(workbench.workspace, 'harbour', 'crops.yaml'), 'utf8');
  const problem = (text: string) =>
    workbench.page.locator('.markers-panel-container .monaco-list-row').filter({ hasText: text }).first();

  beforeAll(async () => {
    workbench = await openWorkbench(host, 'harbour/crops.yaml');
    if (name === 'dark') await runCommand(workbench.page, 'Preferences: Toggle between Light/Dark Themes');
  });
  afterAll(async () => {
    await workbench.close();
  });

  it('shows findings under the numbers, in the list of problems and in the status bar', async () => {
    const { page } = workbench;
    await page.locator('.monaco-editor .squiggly-warning').first().waitFor({ timeout: 60_000 });
    await page.keyboard.press('Control+Shift+M');
    await problem('face').waitFor();
    await page
      .locator('.part.statusbar')
      .getByText(/\d+ frames: \d+ errors?, \d+ warnings/)
      .waitFor();
    await workbench.shoot(`${name}-1-problems`);
  });

  it('shows the crop as a picture over the photo’s name', async () => {
    const { page } = workbench;
    const box = await page.locator('.view-line').filter({ hasText: 'boardwalk-01.jpg' }).nth(1).boundingBox();
    await page.mouse.move(box!.x + 120, box!.y + 9);
    const picture = page.locator('.monaco-hover:visible img').first();
    await picture.waitFor({ timeout: 15_000 });
    await page.waitForFunction(
      '[...document.querySelectorAll(".monaco-hover img")].some((image) => image.naturalWidth > 0)',
    );
    await workbench.shoot(`${name}-2-hover`);
    await page.keyboard.press('Escape');
    await page.mouse.move(5, 5);
  });

  it('a quick fix changes exactly the numbers', async () => {
    const { page } = workbench;
    const before = manifest();
    await problem('face').dblclick();
    await page.locator('.monaco-editor.focused').waitFor();
    await page.keyboard.press('Control+.');
    await page.locator('.action-widget .monaco-list-row').first().waitFor();
    await workbench.shoot(`${name}-3-fixes`);
    await page.keyboard.press('Escape');
    await chooseAction(page, 'Nearest clean crop');
    await page.locator('.tab.active.dirty').waitFor();
    await page.keyboard.press('Control+S');
    await page.locator('.tab.active:not(.dirty)').waitFor();
    const changed = manifest().split('\n').filter((line, index) => line !== before.split('\n')[index]); // prettier-ignore
    expect(changed).toHaveLength(1);
    expect(changed[0]).toMatch(/^ {4}crop: \{ x: [\d.]+, y: [\d.]+, w: [\d.]+, h: [\d.]+ \}$/);
  });

  it('fixing all frames is one step back', async () => {
    const { page } = workbench;
    const before = manifest();
    await problem('The turned photo').dblclick();
    await chooseAction(page, 'Fix all frames in this file');
    await page.locator('.tab.active.dirty').waitFor();
    await page.keyboard.press('Control+S');
    await expect.poll(manifest).not.toBe(before);
    await workbench.shoot(`${name}-4-fixed`);
    await page.locator('.monaco-editor .view-lines').first().click();
    await page.keyboard.press('Control+Z');
    await page.keyboard.press('Control+S');
    await expect.poll(manifest).toBe(before);
  });
});
