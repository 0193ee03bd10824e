import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import type { EditorHost } from './host/prepare.ts';
import { underVersionControl } from './host/version-control.ts';
import { chooseAction, hoverOver, openWorkbench, runCommand, webviewWith, type Workbench } from './host/workbench.ts';

const QUALITY = 82;

/** Takes the README's pictures in a real workbench, one after the other, into `folder`. */
export async function takePictures(host: EditorHost, folder: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const arrange = (workspace: string): void => {
    underVersionControl(join(workspace, 'harbour'));
  };
  const workbench = await openWorkbench(host, 'harbour/crops.yaml', {}, { arrange });
  try {
    await workbench.page.setViewportSize({ width: 1280, height: 760 });
    await workbench.page.locator('.monaco-editor .squiggly-warning').first().waitFor({ timeout: 60_000 });
    const shoot = async (name: string): Promise<void> => {
      await workbench.page.screenshot({ path: join(folder, `${name}.jpg`), type: 'jpeg', quality: QUALITY });
    };
    await closeSideBar(workbench.page);
    await findings(workbench);
    await shoot('findings');
    await hover(workbench);
    await shoot('hover');
    await lamp(workbench);
    await shoot('fix');
    await mat(workbench);
    await shoot('mat');
    await review(workbench);
    await shoot('review');
  } finally {
    await workbench.close();
  }
}

const problem = (page: Page) =>
  page.locator('.markers-panel-container .monaco-list-row').filter({ hasText: 'face' }).first();

async function closeSideBar(page: Page): Promise<void> {
  await page.keyboard.press('Control+B');
  await page.locator('.part.sidebar').waitFor({ state: 'hidden' });
}

async function findings({ page }: Workbench): Promise<void> {
  await page.keyboard.press('Control+Shift+M');
  await problem(page).waitFor();
  await page
    .locator('.part.statusbar')
    .getByText(/\d+ frames: /)
    .waitFor();
}

async function hover({ page }: Workbench): Promise<void> {
  await page.keyboard.press('Control+J');
  await hoverOver(page, page.locator('.view-line').filter({ hasText: 'boardwalk-01.jpg' }).nth(1));
}

async function lamp({ page }: Workbench): Promise<void> {
  await page.keyboard.press('Escape');
  await page.mouse.move(5, 5);
  await page.keyboard.press('Control+Shift+M');
  await problem(page).dblclick();
  await page.locator('.monaco-editor.focused').waitFor();
  await page.keyboard.press('Control+.');
  await page.locator('.action-widget .monaco-list-row').filter({ hasText: 'Nearest clean crop' }).waitFor();
}

async function mat({ page }: Workbench): Promise<void> {
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+J');
  await page.keyboard.press('Control+Shift+O');
  await page.locator('.quick-input-widget input.input').fill('@boardwalk-07.jpg');
  await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: 'boardwalk-07.jpg' }).first().waitFor();
  await page.keyboard.press('Enter');
  await runCommand(page, 'Selvedge: Open the Cutting Mat');
  const shown = await webviewWith(page, '#crop');
  await shown.locator('#photo:not([hidden])').waitFor();
  await shown.locator('.rung').first().waitFor();
  await shown.getByLabel('Body map').check();
}

async function review({ page }: Workbench): Promise<void> {
  await runCommand(page, 'View: Close Other Editors in Group').catch(() => undefined);
  await page.keyboard.press('Control+Shift+M');
  await chooseAction(page, problem(page), 'Fix all frames in this file');
  await page.locator('.tab.dirty').first().waitFor();
  await page.keyboard.press('Control+S');
  await page.locator('.tab.dirty').first().waitFor({ state: 'detached' });
  await page.keyboard.press('Control+J');
  await runCommand(page, 'Git: Open Changes');
  await page.locator('.monaco-diff-editor .line-insert').first().waitFor();
}
