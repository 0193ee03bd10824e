import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { focusText, goToFrame } from './host/go-to-frame.ts';
import type { EditorHost } from './host/prepare.ts';
import { withHost } from './host/with-host.ts';
import {
  chooseAction,
  hoverOverPhoto,
  middleOf,
  openWorkbench,
  runCommand,
  webviewWith,
  type Workbench,
} from './host/workbench.ts';

await withHost(describeStory);

/**
 * What a photographer does, done in a real workbench by a real browser. Pictures of each step are kept in
 * dist/tests/pictures.
 */
function describeStory(host: EditorHost): void {
  describe.each([['light'], ['dark']])('the story in a %s workbench', (name) => {
    storyIn(host, name);
  });
}

function storyIn(host: EditorHost, name: string): void {
  let workbench: Workbench;
  const manifest = (): string => readFileSync(join(workbench.workspace, 'harbour', 'crops.yaml'), 'utf8');
  const problem = (text: string) =>
    workbench.page.locator('.markers-panel-container .monaco-list-row').filter({ hasText: text }).first();

  beforeAll(async () => {
    workbench = await openWorkbench(host, 'harbour/crops.yaml');
    const { page } = workbench;
    await page.locator('.monaco-editor .squiggly-warning').first().waitFor({ timeout: 60_000 });
    if (name === 'dark') await runCommand(page, 'Preferences: Toggle between Light/Dark Themes');
    await page.locator(`.monaco-workbench.${name === 'dark' ? 'vs-dark' : 'vs'}`).waitFor();
  });
  afterAll(async () => {
    await workbench.close();
  });

  it('shows findings under the numbers, in the list of problems and in the status bar', async () => {
    const { page } = workbench;
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
    await hoverOverPhoto(page, 'boardwalk-01.jpg');
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
    await chooseAction(page, problem('face'), 'Nearest clean crop');
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
    await chooseAction(page, problem('The turned photo'), 'Fix all frames in this file');
    await page.locator('.tab.active.dirty').waitFor();
    await page.keyboard.press('Control+S');
    await expect.poll(manifest).not.toBe(before);
    await workbench.shoot(`${name}-4-fixed`);
    await focusText(page);
    await page.keyboard.press('Control+Z');
    await page.keyboard.press('Control+S');
    await expect.poll(manifest).toBe(before);
  });

  it('the cutting mat shows the frame at the cursor with its photo, lengths and findings', async () => {
    const { page } = workbench;
    await page.keyboard.press('Control+J');
    await goToFrame(page, 'boardwalk-07.jpg');
    await runCommand(page, 'Selvedge: Open the Cutting Mat');
    const mat = await webviewWith(page, '#crop');
    await mat.locator('#name', { hasText: 'boardwalk-07.jpg' }).waitFor();
    const width = (photo: unknown): number => (photo as { naturalWidth: number }).naturalWidth;
    await expect.poll(() => mat.locator('#photo').evaluate(width)).toBeGreaterThan(0);
    await mat.locator('.rung').first().waitFor();
    await mat.getByLabel('Body map').check();
    await mat.getByLabel('Thirds').check();
    await workbench.shoot(`${name}-5-mat`);
    expect(await mat.locator('#findings').textContent()).toContain('joint-cut');
  });

  it('an edge that is dragged changes the findings at once, and the text when it is let go; undo takes it back', async () => {
    const { page } = workbench;
    const mat = await webviewWith(page, '#crop');
    const before = manifest();
    const found = (): Promise<string | null> => mat.locator('#findings').textContent();
    // A joint that lies on the edge would be taken hold of instead.
    await mat.getByLabel('Body map').uncheck();
    const foundBefore = await found();
    const [x, y] = await middleOf(mat.locator('.handle.bottom:not(.left):not(.right)'));
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x, y - 60, { steps: 6 });
    await expect.poll(found).not.toBe(foundBefore);
    await workbench.shoot(`${name}-6-dragging`);
    expect(await page.locator('.tab.dirty').count()).toBe(0);
    await page.mouse.up();
    await page.locator('.tab.dirty').waitFor();
    await page.keyboard.press('Control+Z');
    await page.locator('.tab.dirty').waitFor({ state: 'detached' });
    await expect.poll(found).toBe(foundBefore);
    expect(manifest()).toBe(before);
  });

  it('the mat can be used with the keyboard alone', async () => {
    const { page } = workbench;
    const mat = await webviewWith(page, '#crop');
    const facts = (): Promise<string | null> => mat.locator('#facts').textContent();
    const before = await facts();
    await mat.getByLabel('Keep the shape').uncheck();
    await mat.getByLabel('upper edge', { exact: true }).focus();
    await page.keyboard.press('Shift+ArrowDown');
    await expect.poll(facts).not.toBe(before);
    await page.locator('.tab.dirty').waitFor();
    await page.keyboard.press('Control+Z');
    await expect.poll(facts).toBe(before);
    await mat.getByRole('button', { name: 'Next with findings' }).focus();
    await page.keyboard.press('Enter');
    await mat.locator('#name', { hasText: 'boardwalk-07.jpg' }).waitFor({ state: 'hidden' });
    await mat.getByRole('button', { name: 'Previous' }).focus();
    await page.keyboard.press('Enter');
    await mat.locator('#place', { hasText: '8 of' }).waitFor();
    await mat.locator('#photo:not([hidden])').waitFor();
    await mat.locator('.rung').first().waitFor();
    await workbench.shoot(`${name}-7-keyboard`);
  });

  it('a length of the ladder is one click, and the text has it', async () => {
    const { page } = workbench;
    const mat = await webviewWith(page, '#crop');
    await goToFrame(page, 'boardwalk-01.jpg');
    await mat.locator('#name', { hasText: /^boardwalk-01\.jpg$/ }).waitFor();
    await mat.locator('.rung', { hasText: 'half length' }).click();
    await page.locator('.tab.dirty').waitFor();
    await mat.locator('#facts', { hasText: 'half length' }).waitFor();
    await workbench.shoot(`${name}-8-length`);
  });

  it('measuring tells how far it is, can be stopped, and keeps what is done', async () => {
    const { page } = workbench;
    const people = join(workbench.workspace, 'harbour', 'crops.people.jsonl');
    rmSync(people);
    await goToFrame(page, 'boardwalk-02.jpg');
    await runCommand(page, 'Selvedge: Measure the People in the Photos');
    const progress = page
      .locator('.notifications-toasts .notification-list-item')
      .filter({ hasText: 'Measuring people' });
    await progress.getByText(/[1-9]\d* of \d+ photos/).waitFor({ timeout: 120_000 });
    await workbench.shoot(`${name}-9-measuring`);
    await progress.getByText('Cancel').click();
    await page.locator('.notifications-toasts').getByText('then stopped').waitFor();
    const lines = readFileSync(people, 'utf8').trim().split('\n').length;
    expect(lines).toBeGreaterThan(0);
    expect(lines).toBeLessThan(13);
  });
}
