import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Frame, Page } from 'playwright-core';
import sharp from 'sharp';
import { WAIT } from '../editor/host/mat.ts';
import type { EditorHost } from '../editor/host/prepare.ts';
import { openWorkbench, runCommand, webviewWith, type Workbench } from '../editor/host/workbench.ts';
import type { Latency } from '../editor/suite/latency.ts';
import { median } from '../truth/support/median.ts';
import { PROJECT_FOLDER } from '../truth/support/project.ts';

/** 24 megapixels. */
const LARGE = { width: 4000, height: 6000 };
const RUNS = 3;

const MAT = 'Selvedge: Open the Cutting Mat';
const REFERENCE = 'Reference: Open a Page';

/**
 * How long the first picture takes: of the mat, and of a page of the smallest extension that can be, which has a picture of
 * the same size in it and nothing else. That is the workbench's own part, and the difference is ours. Each time in a workbench
 * that was just opened, from the Enter that chooses the command to the picture on the screen.
 */
export async function firstPictures(host: EditorHost): Promise<Latency[]> {
  const photo = await largePhoto();
  const small = await sharp(photo).resize(480, 480, { fit: 'inside' }).jpeg({ quality: 88 }).toBuffer();
  const arrange = (workspace: string): void => {
    writeSession(join(workspace, 'large'), photo);
    writeReference(join(dirname(workspace), 'extensions'), small);
  };
  const [mats, references, following]: [number[], number[], number[]] = [[], [], []];
  for (let run = 0; run < RUNS; run++) {
    await inWorkbench(host, arrange, async ({ page }) => {
      references.push((await firstPicture(page, REFERENCE)).milliseconds);
    });
    await inWorkbench(host, arrange, async ({ page }) => {
      const { milliseconds, frame } = await firstPicture(page, MAT);
      mats.push(milliseconds);
      following.push(await nextPicture(frame, page));
    });
  }
  const [mat, reference, next] = [median(mats), median(references), median(following)];
  const runs = RUNS;
  return [
    { what: 'a 24-megapixel JPEG on the mat, from its command to the first picture', milliseconds: mat, runs },
    { what: 'a webview with one small picture in it and nothing else, likewise', milliseconds: reference, runs },
    { what: 'the difference: what the mat adds', milliseconds: mat - reference, runs },
    { what: 'the next 24-megapixel JPEG', milliseconds: next, runs },
  ];
}

async function inWorkbench(
  host: EditorHost,
  arrange: (workspace: string) => void,
  work: (workbench: Workbench) => Promise<void>,
): Promise<void> {
  const workbench = await openWorkbench(host, 'large/crops.yaml', {}, { arrange });
  try {
    // The photos have been looked at: what is timed is the mat.
    await workbench.page.locator('.monaco-editor', { hasText: '4000 × 6000 px' }).first().waitFor(WAIT);
    await workbench.page.waitForTimeout(1500);
    await work(workbench);
  } finally {
    await workbench.close();
  }
}

/** Runs a command that opens a page, and says when the element `photo` of that was first painted. */
async function firstPicture(page: Page, command: string): Promise<{ milliseconds: number; frame: Frame }> {
  await page.evaluate(`addEventListener('keydown', ({ key }) => {
    if (key === 'Enter') window.chosenAt = performance.timeOrigin + performance.now();
  }, { capture: true })`);
  await runCommand(page, command);
  const frame = await webviewWith(page, '#photo');
  const painted = await frame.evaluate<number>(`new Promise((resolve, reject) => {
    setTimeout(() => reject(new Error('The picture was not painted.')), 30_000);
    new PerformanceObserver((list) => {
      const photo = list.getEntries().find(({ element }) => element?.id === 'photo');
      if (photo) resolve(performance.timeOrigin + photo.startTime);
    }).observe({ type: 'largest-contentful-paint', buffered: true });
  })`);
  return { milliseconds: painted - (await page.evaluate<number>('window.chosenAt')), frame };
}

async function nextPicture(mat: Frame, page: Page): Promise<number> {
  await page.waitForTimeout(1500);
  return mat.evaluate<number>(`new Promise((resolve) => {
    const photo = document.getElementById('photo');
    const before = photo.src;
    const began = performance.now();
    document.getElementById('go-next').click();
    const look = () => {
      if (photo.src !== before && !photo.hidden && photo.complete) resolve(performance.now() - began);
      else requestAnimationFrame(look);
    };
    look();
  })`);
}

function writeSession(folder: string, photo: Buffer): void {
  mkdirSync(folder);
  writeFileSync(join(folder, 'large-1.jpg'), photo);
  copyFileSync(join(folder, 'large-1.jpg'), join(folder, 'large-2.jpg'));
  writeFileSync(join(folder, 'crops.yaml'), 'selvedge: 1\nframes:\n  - photo: large-1.jpg\n  - photo: large-2.jpg\n');
}

/** An installed extension with one command, that opens a page with a picture beside the text. */
function writeReference(extensions: string, picture: Buffer): void {
  const relativeLocation = 'reference.page-1.0.0';
  const folder = join(extensions, relativeLocation);
  mkdirSync(folder, { recursive: true });
  const location = { $mid: 1, path: folder, scheme: 'file' };
  const installed = [{ identifier: { id: 'reference.page' }, version: '1.0.0', location, relativeLocation }];
  writeFileSync(join(extensions, 'extensions.json'), JSON.stringify(installed));
  const command = { command: 'reference.open', category: 'Reference', title: 'Open a Page' };
  const description = {
    name: 'page',
    publisher: 'reference',
    version: '1.0.0',
    engines: { vscode: '^1.90.0' },
    main: './main.js',
    // Awake when it is asked, as the mat's own extension is by then.
    activationEvents: ['onStartupFinished'],
    contributes: { commands: [command] },
  };
  writeFileSync(join(folder, 'package.json'), JSON.stringify(description));
  const page = `<!DOCTYPE html><img id="photo" src="data:image/jpeg;base64,${picture.toString('base64')}">`;
  const main = `const { commands, window } = require('vscode');
exports.activate = () => {
  const place = { viewColumn: -2, preserveFocus: true };
  commands.registerCommand('reference.open', () => {
    const panel = window.createWebviewPanel('reference', 'Reference', place, { enableScripts: true });
    panel.webview.html = ${JSON.stringify(page)};
  });
};`;
  writeFileSync(join(folder, 'main.js'), main);
}

/** A photograph with the grain that a sensor gives. */
async function largePhoto(): Promise<Buffer> {
  const noise = { type: 'gaussian', mean: 128, sigma: 12 } as const;
  const grain = await sharp({ create: { ...LARGE, channels: 3, background: '#808080', noise } })
    .png({ compressionLevel: 0 })
    .toBuffer();
  return sharp(join(PROJECT_FOLDER, 'sample-workspace', 'harbour', 'proofs', 'boardwalk-01.jpg'))
    .resize(LARGE.width, LARGE.height, { fit: 'fill' })
    .composite([{ input: grain, blend: 'soft-light' }])
    .jpeg({ quality: 90 })
    .toBuffer();
}
