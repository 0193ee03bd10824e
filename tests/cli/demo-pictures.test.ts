import { mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { demoPage } from '../../src/tooling/demo-page.mjs';
import { drawFixes } from '../../src/tooling/demo-pictures.mjs';

const WHOLE = { x: 0, y: 0, w: 1, h: 1 };
const RIGHT_HALF = { x: 0.5, y: 0, w: 0.5, h: 1 };

// Nothing of src/ is imported: it closes sharp's drawing formats for the whole process, and the demo draws with one.
async function folderWithPhoto(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-test-'));
  writeFileSync(join(folder, 'a <b>.jpg'), await twoColours());
  return folder;
}

/** Left half red, right half green. */
async function twoColours(): Promise<Buffer> {
  const half = await sharp({ create: { width: 300, height: 400, channels: 3, background: '#00c000' } })
    .png()
    .toBuffer();
  return sharp({ create: { width: 600, height: 400, channels: 3, background: '#c00000' } })
    .composite([{ input: half, left: 300, top: 0 }])
    .jpeg({ quality: 100, chromaSubsampling: '4:4:4' })
    .toBuffer();
}

function checked(crop: typeof WHOLE, straighten = 0) {
  return { photo: 'a <b>.jpg', index: 0, crop, straighten, findings: [] };
}

async function colourAt(jpeg: Buffer, x: number, y: number): Promise<number[]> {
  const pixel = await sharp(jpeg)
    .extract({ left: Math.round(x), top: Math.round(y), width: 1, height: 1 })
    .raw()
    .toBuffer();
  return [...pixel];
}

test.each([0, 2])('left the photo, right what is delivered, long side at most 1200 (turned by %s)', async (degrees) => {
  const folder = await folderWithPhoto();
  const to = join(folder, 'pictures');
  const pictures = await drawFixes({
    before: [checked(WHOLE, degrees), checked(WHOLE)],
    after: [checked({ ...RIGHT_HALF, x: 0.55, y: 0.1, w: 0.4, h: 0.8 }, degrees), checked(WHOLE)],
    photos: folder,
    to,
  });
  expect(readdirSync(to)).toHaveLength(1);
  const { jpeg, width, height } = pictures[0]!;
  expect(Math.max(width, height)).toBeLessThanOrEqual(1200);
  const [redLeft, greenLeft] = await colourAt(jpeg, width * 0.2, height / 2);
  expect(redLeft).toBeGreaterThan(greenLeft! + 50);
  for (const [x, y] of [
    [width - 30, height - 30],
    [width - 30, 30],
    [width * 0.8, height / 2],
  ] as const) {
    const [red, green] = await colourAt(jpeg, x, y);
    expect(green).toBeGreaterThan(red! + 100);
  }
});

test('the page holds its pictures itself, and no name can break it', async () => {
  const folder = await folderWithPhoto();
  const given = { before: [checked(WHOLE)], after: [checked(RIGHT_HALF)], photos: folder, to: join(folder, 'to') };
  const page = demoPage(await drawFixes(given), { summaryBefore: '1 frame', summaryAfter: '1 frame' });
  expect(page).toContain('<h2>a &lt;b&gt;.jpg</h2>');
  expect(page).not.toMatch(/(src|href)="(?!data:)/);
  expect(page).toContain('prefers-color-scheme: dark');
});
