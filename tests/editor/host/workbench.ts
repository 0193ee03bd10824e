import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Frame, Locator, Page } from 'playwright-core';
import { PROJECT_FOLDER } from '../../truth/support/project.ts';
import { startBrowser, workbenchAddress } from './browser.ts';
import type { EditorHost } from './prepare.ts';
import { installExtension, startServer } from './server.ts';

/** A workbench on a copy of the sample sessions, driven by a browser as a user drives it. */
export interface Workbench {
  readonly page: Page;
  /** The copy of `sample-workspace`. */
  readonly workspace: string;
  /** Changes settings while it runs. */
  set(settings: Readonly<Record<string, unknown>>): void;
  /** Keeps a picture of the workbench among the test's results. */
  shoot(name: string): Promise<void>;
  close(): Promise<void>;
}

const PICTURES = join(PROJECT_FOLDER, 'dist', 'tests', 'pictures');

export interface WorkbenchOptions {
  /** The package to install; absent: the extension comes from the source tree. */
  readonly packagePath?: string;
  /** Changes the copy of the sample sessions before it is opened. */
  readonly arrange?: (workspace: string) => void;
}

export async function openWorkbench(
  host: EditorHost,
  file: string,
  settings: Readonly<Record<string, unknown>> = {},
  { packagePath, arrange }: WorkbenchOptions = {},
): Promise<Workbench> {
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-workbench-'));
  const workspace = join(folder, 'workspace');
  cpSync(join(PROJECT_FOLDER, 'sample-workspace'), workspace, { recursive: true });
  arrange?.(workspace);
  if (packagePath !== undefined) await installExtension(host, folder, packagePath);
  const server = await startServer(host, { folder, settings });
  const browser = await startBrowser(host);
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(
    workbenchAddress(server, {
      folder: workspace,
      openFile: join(workspace, file),
      ...(packagePath === undefined && { extension: PROJECT_FOLDER }),
    }),
  );
  await page.locator('.monaco-workbench .part.statusbar').waitFor({ timeout: 60_000 });
  await page.locator('.tab.active').filter({ hasText: 'crops.yaml' }).waitFor();
  return {
    page,
    workspace,
    set: (changed) => {
      const file = join(folder, 'data', 'data', 'Machine', 'settings.json');
      const now = JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>;
      writeFileSync(file, JSON.stringify({ ...now, ...changed }));
    },
    shoot: async (name) => {
      mkdirSync(PICTURES, { recursive: true });
      await page.screenshot({ path: join(PICTURES, `${name}.png`) });
    },
    close: async () => {
      await browser.close();
      await server.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/**
 * Runs a command by its title. Whatever takes the focus just then closes the list of commands, which is opened again.
 */
export async function runCommand(page: Page, title: string): Promise<void> {
  const input = page.locator('.quick-input-widget input.input');
  const row = page.locator('.quick-input-list .monaco-list-row').filter({ hasText: title }).first();
  for (let attempt = 1; ; attempt++) {
    await page.keyboard.press('F1');
    try {
      await input.fill(`>${title}`, { timeout: 5000 });
      await row.waitFor({ timeout: 15_000 });
      break;
    } catch (error) {
      if (attempt === 5) throw error;
      await page.keyboard.press('Escape');
    }
  }
  await page.keyboard.press('Enter');
}

/** Goes to a problem with the pointer and chooses an action of the lamp's menu there. */
export async function chooseAction(page: Page, problem: Locator, title: string): Promise<void> {
  await chooseActionAt(page, title, () => problem.dblclick());
}

/**
 * Goes to a place of the text and chooses an action of the lamp's menu there. The list of problems may be drawn anew just
 * then, and the menu may say that there is nothing while the cursor settles: then both are done again.
 */
export async function chooseActionAt(page: Page, title: string, goThere: () => Promise<void>): Promise<void> {
  const row = page.locator('.action-widget .monaco-list-row').filter({ hasText: title }).first();
  for (let attempt = 1; ; attempt++) {
    await goThere();
    await page.locator('.monaco-editor.focused').waitFor();
    await page.keyboard.press('Control+.');
    try {
      await row.waitFor({ timeout: 4000 });
      break;
    } catch (error) {
      if (attempt === 5) throw error;
      await page.keyboard.press('Escape');
    }
  }
  for (let step = 0; step < 40; step++) {
    const focused = page.locator('.action-widget .monaco-list-row.focused');
    if (((await focused.textContent()) ?? '').includes(title)) break;
    await page.keyboard.press('ArrowDown');
  }
  await page.keyboard.press('Enter');
  await row.waitFor({ state: 'hidden' });
}

/** Opens what the file that is edited has changed since it was last committed. */
export async function openReview(page: Page): Promise<void> {
  await page.locator('.editor-actions .action-label[aria-label^="Open Changes"]').first().click();
  await page.locator('.monaco-diff-editor .line-insert').first().waitFor({ state: 'attached' });
}

/** The middle of an element, in pixels of the page, once it is drawn. */
export async function middleOf(element: Locator): Promise<[x: number, y: number]> {
  for (let attempt = 1; attempt <= 50; attempt++) {
    const box = await element.boundingBox();
    if (box) return [box.x + box.width / 2, box.y + box.height / 2];
    // It was drawn anew just then.
    await element.page().waitForTimeout(100);
  }
  throw new Error('The element is not drawn.');
}

/**
 * Rests the pointer on the name of a frame's photo until the hover shows a picture. Lines may be drawn anew between any two
 * steps, which takes the line and its hover away: then all is done again.
 */
export async function hoverOverPhoto(page: Page, name: string): Promise<void> {
  const line = page.locator('.view-line').filter({ hasText: `photo: ${name}` });
  const picture = page.locator('.monaco-hover:visible img').first();
  for (let attempt = 1; ; attempt++) {
    try {
      await page.mouse.move(5, 5);
      const box = await line.first().boundingBox({ timeout: 10_000 });
      if (!box) throw new Error(`The line of ${name} is not drawn.`);
      await page.mouse.move(box.x + 120, box.y + 9, { steps: 3 });
      await picture.waitFor({ timeout: 10_000 });
      return;
    } catch (error) {
      if (attempt === 5) throw error;
    }
  }
}

/** The webview that holds something. */
export async function webviewWith(page: Page, selector: string): Promise<Frame> {
  for (let waited = 0; waited < 20_000; waited += 100) {
    for (const frame of page.frames()) {
      if (frame === page.mainFrame()) continue;
      const count = await frame.locator(selector).count().catch(() => 0); // prettier-ignore
      if (count > 0) return frame;
    }
    await page.waitForTimeout(100);
  }
  throw new Error(`No webview has ${selector}.`);
}
