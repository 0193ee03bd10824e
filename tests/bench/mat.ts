import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Frame, Page } from 'playwright-core';
import sharp from 'sharp';
import { MatBench, WAIT } from '../editor/host/mat.ts';
import type { EditorHost } from '../editor/host/prepare.ts';
import { middleOf, runCommand, webviewWith } from '../editor/host/workbench.ts';
import type { Latency } from '../editor/suite/latency.ts';
import { PROJECT_FOLDER } from '../truth/support/project.ts';

/** 24 megapixels. */
const LARGE = { width: 4000, height: 6000 };
const STEPS = 150;

/** What a photographer waits for at the cutting mat, timed inside the webview of a real workbench. */
export async function matLatencies(host: EditorHost): Promise<Latency[]> {
  const bench = await MatBench.open(host, 'boardwalk-09.jpg');
  try {
    const plain = await dragSteps(bench);
    await bench.mat.getByLabel('Body map').check();
    const withMap = await dragSteps(bench);
    return [
      { what: 'a step of a drag on the mat, three people: findings, drawing, layout', ...plain },
      { what: 'the same with the body map', ...withMap },
      ...(await firstPictures(bench)),
    ];
  } finally {
    await bench.workbench.close();
  }
}

/** Drags a corner about, and times what each of the screen's pictures costs, layout included. */
async function dragSteps({ mat, page }: MatBench): Promise<Pick<Latency, 'milliseconds' | 'runs'>> {
  await mat.evaluate(`(() => {
    const isInstalled = window.steps !== undefined;
    window.steps = [];
    if (isInstalled) return;
    let moving = 0, began = 0;
    addEventListener('pointermove', () => { began = performance.now(); }, { capture: true });
    addEventListener('pointermove', () => { moving += performance.now() - began; });
    const real = requestAnimationFrame.bind(window);
    window.requestAnimationFrame = (paint) => real((time) => {
      const start = performance.now();
      paint(time);
      void document.body.offsetHeight;
      window.steps.push(performance.now() - start + moving);
      moving = 0;
    });
  })()`);
  const [x, y] = await middleOf(mat.getByLabel('lower right corner'));
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 0; step < STEPS; step++) {
    await page.mouse.move(x - 60 + 50 * Math.sin(step / 9), y - 50 + 45 * Math.cos(step / 7));
  }
  const steps = (await mat.evaluate<number[]>('window.steps')).slice(5);
  await page.mouse.move(x, y);
  await page.mouse.up();
  steps.sort((first, second) => first - second);
  return { milliseconds: steps[Math.floor(steps.length / 2)]!, runs: steps.length };
}

async function firstPictures(bench: MatBench): Promise<Latency[]> {
  const { page } = bench;
  await page.locator('.tab', { hasText: 'Cutting Mat' }).locator('.codicon-close').click();
  await makeLargeSession(join(bench.workbench.workspace, 'large'));
  await page.keyboard.press('Control+P');
  await page.locator('.quick-input-widget input.input').fill('large/crops.yaml');
  await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: 'large' }).first().waitFor(WAIT);
  await page.keyboard.press('Enter');
  await page.locator('.view-line', { hasText: 'large-1.jpg' }).first().waitFor(WAIT);
  // The photos have been looked at: what is timed is the mat.
  await page.locator('.monaco-editor', { hasText: '4000 × 6000 px' }).first().waitFor(WAIT);
  const began = Date.now();
  await runCommand(page, 'Selvedge: Open the Cutting Mat');
  const mat = await webviewWith(page, '#crop');
  await mat.locator('#photo:not([hidden])').waitFor(WAIT);
  const opened = (await shownAt(mat)) - began;
  const next = await nextPicture(mat, page);
  return [
    {
      what: 'mat opened by its command with a 24-megapixel JPEG: from typing the command to the picture',
      milliseconds: opened,
      runs: 1,
    },
    { what: 'the page of the mat, from its first line to the picture', milliseconds: await sincePage(mat), runs: 1 },
    { what: 'the next 24-megapixel JPEG', milliseconds: next, runs: 1 },
  ];
}

/** When the photo was first painted; milliseconds since 1970. */
async function shownAt(mat: Frame): Promise<number> {
  return mat.evaluate<number>(`new Promise((resolve) => {
    new PerformanceObserver((list) => {
      const photo = list.getEntries().find(({ element }) => element?.id === 'photo');
      if (photo) resolve(performance.timeOrigin + photo.startTime);
    }).observe({ type: 'largest-contentful-paint', buffered: true });
  })`);
}

async function sincePage(mat: Frame): Promise<number> {
  return (await shownAt(mat)) - (await mat.evaluate<number>('performance.timeOrigin'));
}

async function nextPicture(mat: Frame, page: Page): Promise<number> {
  await page.waitForTimeout(1000);
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

/** Photographs with the grain that a sensor gives. */
async function makeLargeSession(folder: string): Promise<void> {
  mkdirSync(folder);
  const noise = { type: 'gaussian', mean: 128, sigma: 12 } as const;
  const grain = await sharp({ create: { ...LARGE, channels: 3, background: '#808080', noise } })
    .png({ compressionLevel: 0 })
    .toBuffer();
  const photo = join(PROJECT_FOLDER, 'sample-workspace', 'harbour', 'proofs', 'boardwalk-01.jpg');
  const bytes = await sharp(photo)
    .resize(LARGE.width, LARGE.height, { fit: 'fill' })
    .composite([{ input: grain, blend: 'soft-light' }])
    .jpeg({ quality: 90 })
    .toBuffer();
  for (const name of ['large-1.jpg', 'large-2.jpg']) writeFileSync(join(folder, name), bytes);
  writeFileSync(join(folder, 'crops.yaml'), 'selvedge: 1\nframes:\n  - photo: large-1.jpg\n  - photo: large-2.jpg\n');
}
