import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { focusText } from './host/go-to-frame.ts';
import type { EditorHost } from './host/prepare.ts';
import { picturesIn } from './host/sheet-pictures.ts';
import { underVersionControl } from './host/version-control.ts';
import {
  hoverOverPhoto,
  openReview,
  openWorkbench,
  runCommand,
  webviewWith,
  type Workbench,
} from './host/workbench.ts';

const QUALITY = 82;
/** Only what a reader needs to see. */
const SETTINGS = {
  'window.commandCenter': false,
  'window.title': '${rootName}',
  'workbench.layoutControl.enabled': false,
  'editor.minimap.enabled': false,
  'git.blame.statusBarItem.enabled': false,
};

/** A part of the window, in pixels of the page. */
type Part = readonly [x: number, y: number, width: number, height: number];

/**
 * Takes the README's pictures in a real workbench, one after the other, into `readme`, and parts of the same views for the
 * walkthrough into `walkthrough`.
 */
export async function takePictures(host: EditorHost, readme: string, walkthrough: string): Promise<void> {
  for (const folder of [readme, walkthrough]) mkdirSync(folder, { recursive: true });
  const arrange = (workspace: string): void => {
    underVersionControl(join(workspace, 'harbour'));
  };
  const workbench = await openWorkbench(host, 'harbour/crops.yaml', SETTINGS, { arrange });
  try {
    await workbench.page.setViewportSize({ width: 1280, height: 760 });
    await workbench.page.locator('.monaco-editor .squiggly-warning').first().waitFor({ timeout: 60_000 });
    const shoot = async (name: string): Promise<void> => {
      await workbench.page.screenshot({ path: join(readme, `${name}.jpg`), type: 'jpeg', quality: QUALITY });
    };
    const shootPart = async (name: string, [x, y, width, height]: Part): Promise<void> => {
      await workbench.page.screenshot({ path: join(walkthrough, `${name}.png`), clip: { x, y, width, height } });
    };
    await closeSideBar(workbench.page);
    await findings(workbench);
    await shoot('findings');
    await shootPart('finding', [48, 35, 700, 600]);
    await hover(workbench);
    await shoot('hover');
    await lamp(workbench);
    await shoot('fix');
    await shootPart('fix', [48, 35, 700, 600]);
    await mat(workbench);
    await shoot('mat');
    await shootPart('mat', [664, 35, 616, 660]);
    await sheet(workbench);
    await shoot('sheet');
    await review(workbench);
    await shoot('review');
    await shootPart('review', [48, 390, 1080, 300]);
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
  await focusText(page);
  await page.keyboard.press('Control+G');
  await page.locator('.quick-input-widget input.input').fill(':21:29');
  await page.keyboard.press('Enter');
  await page.locator('.part.statusbar').getByText('Ln 21,').waitFor();
  await page
    .locator('.part.statusbar')
    .getByText(/\d+ frames: /)
    .waitFor();
}

async function hover({ page }: Workbench): Promise<void> {
  await page.keyboard.press('Control+J');
  await hoverOverPhoto(page, 'boardwalk-01.jpg');
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

async function sheet({ page }: Workbench): Promise<void> {
  await focusText(page);
  await runCommand(page, 'View: Close Editors in Other Groups');
  await page.locator('.tab').filter({ hasText: 'Cutting Mat' }).waitFor({ state: 'detached' });
  await runCommand(page, 'Selvedge: Open the Contact Sheet');
  await picturesIn(await webviewWith(page, '#grid .cell'));
}

async function review({ page }: Workbench): Promise<void> {
  const tab = page.locator('.tab').filter({ hasText: 'Contact Sheet' });
  await tab.locator('.codicon-close').click();
  await tab.waitFor({ state: 'detached' });
  await runCommand(page, 'Selvedge: Fix All Frames in This File');
  await page.locator('.tab.dirty').first().waitFor();
  await page.keyboard.press('Control+S');
  await page.locator('.tab.dirty').first().waitFor({ state: 'detached' });
  await runCommand(page, 'Notifications: Clear All Notifications');
  await openReview(page);
}
