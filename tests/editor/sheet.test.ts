import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { generatedSession } from '../scenes/session.ts';
import { accessibilityFaults } from './host/axe.ts';
import type { EditorHost } from './host/prepare.ts';
import { harbourFrames } from './host/sample.ts';
import { picturesIn } from './host/sheet-pictures.ts';
import { withHost } from './host/with-host.ts';
import { openWorkbench, runCommand, webviewWith, type Workbench } from './host/workbench.ts';

const SLOW = 60_000;
/** Frames of the sample session. */
const TOTAL = harbourFrames();

/** Waits until something is as it should be. */
const eventually = <Value>(get: () => Value | Promise<Value>) => expect.poll(get, { timeout: SLOW });

await withHost(describeSheetStory);

/** What a photographer does with many frames at once, in a real workbench. Pictures are in dist/tests/pictures. */
function describeSheetStory(host: EditorHost): void {
  describe('the contact sheet in a light workbench', () => {
    sheetStory(host);
  });
}

function sheetStory(host: EditorHost): void {
  let workbench: Workbench;
  let sheet: Frame;
  let original: string;
  const manifest = (): string => readFileSync(join(workbench.workspace, 'harbour', 'crops.yaml'), 'utf8');
  const counts = (): Promise<string | null> => sheet.locator('#counts').textContent();
  const found = (): Promise<string | null> => sheet.locator('#found').textContent();
  const told = (): Promise<string | null> => sheet.locator('#told').textContent();
  const button = (name: string) => sheet.getByRole('button', { name, exact: true });
  const cell = (name: string) => sheet.getByRole('option', { name: new RegExp(`^${name.replaceAll(/[.#]/g, '\\$&')} `) }); // prettier-ignore

  /** Saves the text, so that the file has what the editor has. */
  async function save(): Promise<string> {
    await runCommand(workbench.page, 'File: Save All Files');
    await workbench.page.locator('.tab.dirty').first().waitFor({ state: 'detached' });
    return manifest();
  }

  beforeAll(async () => {
    workbench = await openWorkbench(host, 'harbour/crops.yaml');
    workbench.page.setDefaultTimeout(SLOW);
    original = manifest();
    sheet = await openSheet(workbench);
  });
  afterAll(async () => {
    await workbench.close();
  });

  it('shows all frames as they will be delivered, with what is found', async () => {
    await eventually(counts).toBe(`${TOTAL} of ${TOTAL} frames shown, 0 selected`);
    await picturesIn(sheet);
    expect(await cell('boardwalk-01.jpg#2').textContent()).toContain('face-cut');
    await workbench.shoot('sheet-1-frames');
    expect(await accessibilityFaults(sheet)).toEqual([]);
  });

  it('what was done is undone while the sheet keeps the whole width and the keyboard, and is not said to be there', async () => {
    const { page } = workbench;
    await click('boardwalk-06.jpg');
    await button('Approve').click();
    await eventually(told).toBe('1 frame changed.');
    await eventually(() => cell('boardwalk-06.jpg').textContent()).toContain('approved');
    await sheet.locator('#grid').focus();
    await page.keyboard.press('Control+Z');
    await eventually(() => cell('boardwalk-06.jpg').textContent()).not.toContain('approved');
    await eventually(told).toBe('');
    await eventually(() => page.locator('.editor-group-container').count()).toBe(1);
    await eventually(() => sheet.evaluate('document.hasFocus()')).toBe(true);
  });

  it('has the whole width as a tab of its own; Enter goes to the text beside it, and a click then only shows the line', async () => {
    const { page } = workbench;
    const groups = page.locator('.editor-group-container');
    expect(await groups.count()).toBe(1);
    await click('boardwalk-03.jpg');
    await eventually(counts).toContain('1 selected');
    expect(await groups.count()).toBe(1);
    await page.keyboard.press('Enter');
    await page.locator('.monaco-editor.focused .view-line').filter({ hasText: 'boardwalk-03.jpg' }).first().waitFor();
    expect(await groups.count()).toBe(2);
    expect(await sheet.locator('#grid').isVisible()).toBe(true);
    await workbench.shoot('sheet-1-beside');
  });

  it('shows only what the filter lets through, and says how many that is', async () => {
    await sheet.getByLabel('Rule').selectOption('joint-cut');
    await eventually(counts).toMatch(new RegExp(`^\\d+ of ${TOTAL} frames shown, 0 selected$`));
    const ofRule = Number.parseInt((await counts())!, 10);
    expect(ofRule).toBeGreaterThan(1);
    expect(ofRule).toBeLessThan(TOTAL);
    await sheet.getByLabel('Name').fill('STUDIO');
    await eventually(async () => Number.parseInt((await counts())!, 10)).toBeLessThan(ofRule);
    await workbench.shoot('sheet-2-filter');
    await button('Show All').click();
    await eventually(counts).toBe(`${TOTAL} of ${TOTAL} frames shown, 0 selected`);
  });

  it('a click on a frame goes to its line, and the keyboard stays on the sheet', async () => {
    await click('boardwalk-04.jpg');
    await eventually(counts).toContain('1 selected');
    await workbench.page.locator('.active-line-number').getByText('34', { exact: true }).waitFor();
    expect(await sheet.locator('#grid:focus').count()).toBe(1);
    expect(await sheet.locator('#found').textContent()).toContain('aspect');
  });

  it('a fix over many frames is looked through before anything is written, and one is left out', async () => {
    await workbench.page.keyboard.press('Control+A');
    await eventually(counts).toContain(`${TOTAL} selected`);
    await eventually(found).toMatch(new RegExp(`^${TOTAL} selected: \\d+ errors, \\d+ warnings$`));
    await button('Fix').click();
    await sheet.locator('#review-rows .row').first().waitFor();
    const moves = await sheet.locator('#review-rows .moved').allTextContents();
    const numbers = moves.map((words) => Number(/[\d.]+/.exec(words)?.[0]));
    expect(numbers.length).toBeGreaterThan(5);
    expect(numbers).toEqual([...numbers].sort((first, second) => second - first));
    await sheet.locator('#review-rows .row').first().locator('.is img').waitFor();
    await workbench.shoot('sheet-3-review');
    expect(await accessibilityFaults(sheet)).toEqual([]);
    expect(await workbench.page.locator('.tab.dirty').count()).toBe(0);
    await sheet.getByLabel('boardwalk-06.jpg').uncheck();
    await button(`Write ${numbers.length - 1} New Crops`).click();
    await eventually(told).toContain('Undo takes all back');
    const [before, after] = [original.split('\n'), (await save()).split('\n')];
    const changed = after.filter((line, index) => line !== before[index]);
    expect(changed.length).toBeGreaterThan(5);
    expect(changed.every((line) => /^ {4}crop: \{ x: [\d.]+, y: [\d.]+, w: [\d.]+, h: [\d.]+ \}$/.test(line) || before.includes(line))).toBe(true); // prettier-ignore
    expect(after).toContain('    crop: { x: 0.03, y: 0, w: 0.97, h: 0.97 }');
    expect(after.filter((line) => line.includes('#'))).toEqual(before.filter((line) => line.includes('#')));
  });

  it('one step back brings all of them back', async () => {
    await sheet.locator('#grid').focus();
    await workbench.page.keyboard.press('Control+Z');
    await workbench.page.locator('.tab.dirty').first().waitFor();
    await eventually(() => sheet.evaluate('document.hasFocus()')).toBe(true);
    await eventually(told).toBe('');
    expect(await save()).toBe(original);
    await eventually(() => cell('boardwalk-01.jpg#2').textContent()).toContain('face-cut');
  });

  it('a small window shows two rows of pictures, and a fix with all that is said about it', async () => {
    const { page } = workbench;
    await page.setViewportSize({ width: 1000, height: 650 });
    onTestFinished(() => page.setViewportSize({ width: 1440, height: 900 }));
    await sheet.locator('summary').waitFor();
    expect(await sheet.getByLabel('Rule').isVisible()).toBe(false);
    await picturesIn(sheet);
    const inView = `(() => {
      const { top, bottom } = document.getElementById('grid').getBoundingClientRect();
      const boxes = [...document.querySelectorAll('.cell .room')].map((room) => room.getBoundingClientRect());
      return new Set(boxes.filter((box) => box.top >= top - 1 && box.bottom <= bottom + 1).map((box) => box.top)).size;
    })()`;
    await sheet.locator('#grid').evaluate('document.getElementById("grid").scrollTop = 0');
    await eventually(() => sheet.evaluate<number>(inView)).toBeGreaterThanOrEqual(2);
    await workbench.shoot('sheet-8-small');
    expect(await faultsWithAndWithoutFocus()).toEqual([]);
    await sheet.locator('summary').click();
    await sheet.getByLabel('Rule').selectOption('joint-cut');
    await button('Show All').click();
    await sheet.locator('summary').click();
    await sheet.locator('#grid').focus();
    await page.keyboard.press('Control+A');
    await button('Fix').click();
    const words = sheet.locator('#review-rows .words').first();
    await words.waitFor();
    expect((await words.boundingBox())!.width).toBeGreaterThan(200);
    await sheet.locator('#review-rows .row').first().locator('.is img').waitFor();
    await workbench.shoot('sheet-9-small-review');
    expect(await accessibilityFaults(sheet)).toEqual([]);
    await button('Change Nothing').click();
  });

  it('allows what is meant to be so, with the reason that was asked for', async () => {
    await sheet.getByLabel('Rule').waitFor();
    await click('boardwalk-06.jpg');
    await button('Allow…').click();
    await pick('headroom');
    await type('all that sky is what they came for');
    await eventually(told).toBe('1 frame changed.');
    expect(await save()).toMatch(/allow: \{ headroom: "all that sky is what they came for" \}/);
    await eventually(() => cell('boardwalk-06.jpg').textContent()).not.toContain('headroom');
  });

  it('approves what is selected and takes it back', async () => {
    await click('boardwalk-06.jpg');
    await click('boardwalk-07.jpg', ['Control']);
    await eventually(counts).toContain('2 selected');
    await button('Approve').click();
    await eventually(() => cell('boardwalk-07.jpg').textContent()).toContain('approved');
    expect((await save()).split('final: true')).toHaveLength(original.split('final: true').length + 2);
    await button('Take Back Approval').click();
    await eventually(() => cell('boardwalk-07.jpg').textContent()).not.toContain('approved');
  });

  it('shows the crops of an output, and offers nothing then that is about the main crops', async () => {
    const shapeOf = async (name: string): Promise<number> => {
      const box = await cell(name).locator('.picture').boundingBox();
      return box!.width / box!.height;
    };
    const crops = sheet.locator('#crops');
    await click('boardwalk-07.jpg');
    await eventually(() => shapeOf('boardwalk-07.jpg')).toBeCloseTo(3 / 2, 1);
    expect(await crops.locator('option').allTextContents()).toEqual(['main', 'album', 'web']);
    await crops.selectOption('album');
    await eventually(() => shapeOf('boardwalk-07.jpg')).toBeCloseTo(4 / 3, 1);
    await eventually(() => cell('boardwalk-07.jpg').textContent()).not.toContain('joint-cut');
    await picturesIn(sheet);
    await workbench.shoot('sheet-output');
    expect(await button('Fix').isDisabled()).toBe(true);
    expect(await button('Approve').isDisabled()).toBe(false);
    await crops.selectOption('main');
    await eventually(() => cell('boardwalk-07.jpg').textContent()).toContain('joint-cut');
    expect(await button('Fix').isDisabled()).toBe(false);
  });

  it('sets the length of many frames', async () => {
    await click('boardwalk-06.jpg');
    await click('boardwalk-07.jpg', ['Shift']);
    await button('Length…').click();
    await pick('half length');
    await eventually(told).toBe('2 frames changed.');
    expect(await save()).toMatch(/boardwalk-07\.jpg\n(?: {4}.*\n)*? {4}length: half-length/);
  });

  it('shows what needs somebody, because no fix can do it', async () => {
    await sheet.getByLabel('Needs you').check();
    await eventually(counts).toMatch(new RegExp(`^\\d+ of ${TOTAL} frames shown`));
    expect(Number.parseInt((await counts())!, 10)).toBeLessThan(10);
    await sheet.getByLabel('Needs you').uncheck();
  });

  it('can be used with the keyboard alone', async () => {
    const { keyboard } = workbench.page;
    await sheet.getByLabel('Name').focus();
    await keyboard.type('boardwalk-1');
    await eventually(counts).toMatch(new RegExp(`^3 of ${TOTAL}`));
    const isOnGrid = (): Promise<boolean> => sheet.locator('#grid:focus').count().then((number) => number === 1); // prettier-ignore
    for (let step = 0; step < 20 && !(await isOnGrid()); step++) await keyboard.press('Tab');
    await keyboard.press('Home');
    await keyboard.press('Space');
    await keyboard.press('Shift+ArrowRight');
    await eventually(counts).toContain('2 selected');
    await keyboard.press('Escape');
    await eventually(counts).toContain('0 selected');
    await keyboard.press('End');
    await keyboard.press('ArrowLeft');
    await keyboard.press('Space');
    await workbench.shoot('sheet-4-keyboard');
    const name = await sheet.locator('.cell[aria-selected="true"] .name').textContent();
    await keyboard.press('Shift+Tab');
    for (let step = 0; step < 20 && (await sheet.locator('button[value="fix"]:focus').count()) === 0; step++) await keyboard.press('Shift+Tab'); // prettier-ignore
    await keyboard.press('Enter');
    await sheet.locator('#review-title:focus').waitFor();
    await keyboard.press('Escape');
    await eventually(told).toBe('Nothing was changed.');
    await eventually(isOnGrid).toBe(true);
    await keyboard.press('Enter');
    await workbench.page.locator('.monaco-editor.focused').waitFor();
    await workbench.page.locator('.monaco-editor.focused .view-line').filter({ hasText: name! }).first().waitFor();
  });

  it.each([
    ['dark', 'Default Dark Modern'],
    ['high-contrast', 'Default High Contrast'],
  ])('takes the editor’s colours, and axe-core finds no fault: %s', async (name, theme) => {
    workbench.set({ 'workbench.colorTheme': theme });
    await sheet.locator(`body.vscode-${name}`).waitFor();
    await sheet.getByLabel('Name').fill('');
    await click('boardwalk-01.jpg#2');
    await eventually(counts).toBe(`${TOTAL} of ${TOTAL} frames shown, 1 selected`);
    await picturesIn(sheet);
    await workbench.shoot(`sheet-5-${name}`);
    expect(await faultsWithAndWithoutFocus()).toEqual([]);
  });

  it('the tree shows each session, what is found in it, and leads to a frame', async () => {
    const { page } = workbench;
    const pane = page.locator('.part.sidebar .pane-header').filter({ hasText: 'Sessions' });
    await pane.waitFor();
    if ((await pane.getAttribute('aria-expanded')) !== 'true') await pane.click();
    const line = (text: string | RegExp) => page.locator('.part.sidebar .monaco-list-row').filter({ hasText: text }).last(); // prettier-ignore
    await line(new RegExp(`Harbour and studio.*${TOTAL} frames`)).waitFor();
    await line('portfolio/crops.yaml').waitFor();
    await line(/Harbour and studio/)
      .locator('.monaco-tl-twistie')
      .click();
    await line(/^boardwalk-03\.jpg.*error/).waitFor();
    await workbench.shoot('sheet-6-tree');
    await line(/^boardwalk-03\.jpg.*error/).click();
    await page.locator('.part.statusbar').getByText('Ln 29,').waitFor();
  });

  it('of two thousand frames only those near the view are in the page', async () => {
    const folder = join(workbench.workspace, 'many');
    mkdirSync(folder);
    // Nobody is measured, so little is found: ten thousand squiggles are not what is looked at here.
    writeFileSync(join(folder, 'crops.yaml'), generatedSession(2000).manifest);
    const { page } = workbench;
    await page.keyboard.press('Control+1');
    await page.keyboard.press('Control+P');
    await page.locator('.quick-input-widget input.input').fill('many/crops.yaml');
    await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: 'many' }).first().waitFor(); // prettier-ignore
    await page.keyboard.press('Enter');
    await page.locator('.part.statusbar').getByText('2000 frames').waitFor();
    await runCommand(page, 'Selvedge: Open the Contact Sheet');
    const many = await webviewWith(page, '.cell[aria-setsize="2000"]');
    const cells = (): Promise<number> => many.locator('.cell').count();
    expect(await cells()).toBeLessThan(60);
    await many.locator('#grid').focus();
    for (const key of ['PageDown', 'PageDown', 'End']) await page.keyboard.press(key);
    await many.locator('.cell.active[aria-posinset="2000"]').waitFor();
    expect(await cells()).toBeLessThan(60);
    await workbench.shoot('sheet-7-many');
  });

  /** A selection looks another way while the grid has the focus. */
  async function faultsWithAndWithoutFocus(): Promise<string[]> {
    const grid = sheet.locator('#grid');
    await grid.focus();
    const focused = await accessibilityFaults(sheet);
    await grid.blur();
    const unfocused = await accessibilityFaults(sheet);
    await grid.focus();
    return [...focused, ...unfocused];
  }

  async function click(name: string, modifiers: ('Control' | 'Shift')[] = []): Promise<void> {
    await cell(name).click({ modifiers });
  }

  /** Chooses from the editor's own list. */
  async function pick(label: string): Promise<void> {
    const { page } = workbench;
    await page.locator('.quick-input-widget:visible input.input').fill(label);
    await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: label }).first().waitFor();
    await page.keyboard.press('Enter');
  }

  async function type(text: string): Promise<void> {
    const { page } = workbench;
    await page.locator('.quick-input-widget:visible').getByText('Why is it meant').waitFor();
    await page.locator('.quick-input-widget:visible input.input').fill(text);
    await page.keyboard.press('Enter');
  }
}

async function openSheet({ page }: Workbench): Promise<Frame> {
  await page.locator('.monaco-editor .squiggly-warning').first().waitFor();
  await runCommand(page, 'Selvedge: Open the Contact Sheet');
  return webviewWith(page, '#grid .cell');
}
