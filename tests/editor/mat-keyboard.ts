import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { accessibilityFaults } from './host/axe.ts';
import { WAIT, type MatBench } from './host/mat.ts';

const THEMES = [
  ['dark', 'Default Dark Modern', 'vs-dark'],
  ['high-contrast', 'Default High Contrast', 'hc-black'],
  ['high-contrast-light', 'Default High Contrast Light', 'hc-light'],
  ['light', 'Default Light Modern', 'vs'],
] as const;

/** The mat without a pointer, and as those see it who need other colours. */
export function keyboardAndThemes(open: () => MatBench): void {
  it('all of it is done with the keyboard alone', async () => {
    const bench = open();
    const { page, mat } = bench;
    const { keyboard } = page;
    await bench.show('boardwalk-01.jpg');
    const [text, people] = [bench.manifest(), bench.people()];
    await page.keyboard.press('Control+2');
    await expect.poll(() => mat.evaluate<boolean>('document.hasFocus()'), WAIT).toBe(true);

    // Some other tests leave the focus near the end, from where Tab goes into the text and stays there.
    await mat.locator('#crop').focus();
    await bench.tabTo(/^lower edge$/);
    for (let step = 0; step < 3; step++) await keyboard.press('Shift+ArrowUp');
    expect(await bench.saved(text)).toHaveLength(1);
    await bench.undo(text);

    await bench.tabTo(/^Turned by$/);
    for (let step = 0; step < 3; step++) await keyboard.press('ArrowUp');
    expect(await bench.saved(text)).toContain('    straighten: 0.3');
    await bench.undo(text);

    await bench.tabTo(/^left knee of person 1/);
    for (let step = 0; step < 3; step++) await keyboard.press('Shift+ArrowUp');
    await expect.poll(() => bench.people(), WAIT).toContain('"source":"hand"');
    await bench.tabTo(/^Take back/);
    await keyboard.press('Enter');
    await expect.poll(() => bench.people(), WAIT).toBe(people);

    // Whether there is more to take back or not, that is at most one step away; forwards is out of the mat.
    await bench.tabTo(/^Add a person$/, 'Shift+Tab');
    await keyboard.press('Enter');
    for (const key of ['Shift+ArrowUp', 'Enter', 'n', 'Shift+ArrowRight', 'Enter', 'ArrowDown', 'Enter', 'd']) {
      await keyboard.press(key);
    }
    await expect.poll(() => bench.people(), WAIT).toContain('"source":"hand"');
    await bench.tabTo(/^Take out person 2$/, 'Shift+Tab');
    await keyboard.press('Enter');
    await expect.poll(() => bench.people(), WAIT).toBe(people);

    await bench.tabTo(/^half length,/, 'Shift+Tab');
    await keyboard.press('Enter');
    expect(await bench.saved(text)).toHaveLength(1);
    await bench.undo(text);

    await keyboard.press('PageDown');
    await bench.shown('boardwalk-01.jpg#2');
    await keyboard.press('PageUp');
    await bench.shown('boardwalk-01.jpg');
  });

  it.each(THEMES)('in %s everything can be seen and has a name', async (name, theme, marker) => {
    const bench = open();
    const settings = join(bench.workbench.workspace, '.vscode');
    mkdirSync(settings, { recursive: true });
    writeFileSync(join(settings, 'settings.json'), JSON.stringify({ 'workbench.colorTheme': theme }));
    await bench.page.locator(`.monaco-workbench.${marker}`).waitFor(WAIT);
    await bench.show('boardwalk-07.jpg');
    await bench.mat.getByLabel('Thirds').check();
    await bench.mat.getByLabel('lower edge', { exact: true }).focus();
    await bench.workbench.shoot(`mat-theme-${name}`);
    await bench.mat.getByLabel('Thirds').uncheck();
    expect(await accessibilityFaults(bench.mat)).toEqual([]);
  });
}
