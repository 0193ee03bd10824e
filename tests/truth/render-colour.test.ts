import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { renderPicture, type FileOptions } from '../../src/photos/render/render.ts';
import { folderWith } from '../cli/workspace.ts';
import { difference2000, labOfLevels } from './support/colour-difference.ts';
import { PLAIN_FILE } from './support/plain-file.ts';

const folder = folderWith({});
const PATCHES = ['#c8102e', '#1d6f42', '#204080', '#f2c500', '#808080', '#e8c8b0', '#3b2a22', '#f8f8f8'];

/** Eight patches of 60 × 60 pixels, in the given profile. */
async function patches(name: string, profile: string, isDeep = false): Promise<string> {
  const path = join(folder, name);
  const made = sharp({ create: { width: 480, height: 60, channels: 3, background: '#000' } }).composite(
    PATCHES.map((background, index) => ({
      input: { create: { width: 60, height: 60, channels: 3, background } },
      left: 60 * index,
      top: 0,
    })),
  );
  const stored = await made.png().toBuffer();
  const deep = isDeep ? sharp(stored).toColourspace('rgb16') : sharp(stored);
  await deep.withIccProfile(profile).png().toFile(path);
  return path;
}

async function render(path: string, options: Partial<FileOptions>, degrees = 0): Promise<Buffer> {
  const crop = { left: 10, top: 8, right: 470, bottom: 52 };
  const cut = { degrees, crop, trimmed: { width: 460, height: 44 }, bleed: 0 };
  return (await renderPicture(path, (photo) => ({ ...cut, photo }), { ...PLAIN_FILE, ...options })).bytes;
}

/** Red, green and blue of each patch's middle, as the file's own profile has it. */
async function levelsOf(file: Buffer | string, offset: number): Promise<number[][]> {
  const picture = sharp(file).toColourspace('rgb16').raw({ depth: 'ushort' });
  const { data, info } = await picture.toBuffer({ resolveWithObject: true });
  const values = new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
  return PATCHES.map((_, index) => {
    const at = (Math.floor(info.height / 2) * info.width + 60 * index + 30 - offset) * info.channels;
    return [0, 1, 2].map((channel) => values[at + channel]! / 257);
  });
}

// Source: Sharma, Wu and Dalal 2005, table 1, pairs 1 and 5.
test('the measure of difference', () => {
  expect(difference2000([50, 2.6772, -79.7751], [50, 0, -82.7485])).toBeCloseTo(2.0425, 4);
  expect(difference2000([50, -1.1848, -84.8006], [50, 0, -82.7485])).toBeCloseTo(1, 4);
});

describe.each(['srgb', 'p3'])('a photo in %s', (profile) => {
  test.each([
    ['srgb', 0],
    ['display-p3', 0],
    ['original', 0],
    ['srgb', 0.5],
    ['original', 0.5],
  ] as const)(
    'rendered as %s, straightened by %f degrees: within 1 ΔE2000 of the library used directly',
    async (asked, degrees) => {
      const path = await patches(`${profile}-${asked}-${degrees}.png`, profile);
      const ours = await levelsOf(await render(path, { profile: asked }, degrees), 10);
      const direct = await levelsOf(path, 0);
      for (const [index, levels] of ours.entries()) {
        expect(difference2000(labOfLevels(levels), labOfLevels(direct[index]!))).toBeLessThan(1);
      }
    },
  );
});

test('16 bit stays 16 bit in PNG and TIFF, straight and turned; 8 bit stays 8', async () => {
  const path = await patches('deep.png', 'p3', true);
  for (const format of ['png', 'tiff'] as const) {
    for (const degrees of [0, 2]) {
      const { depth } = await sharp(await render(path, { format }, degrees)).metadata();
      expect(depth).toBe('ushort');
    }
  }
  expect((await sharp(await render(path, { format: 'jpeg' })).metadata()).depth).toBe('uchar');
  expect((await sharp(await render(await patches('flat.png', 'srgb'), {})).metadata()).depth).toBe('uchar');
});

test('not straightened: the same bytes as a hand-written pipeline', async () => {
  const path = await patches('plain.png', 'p3');
  const crop = { left: 10, top: 4, right: 460, bottom: 49 };
  const cut = { degrees: 0, crop, trimmed: { width: 300, height: 30 }, bleed: 0 };
  const { bytes } = await renderPicture(path, (photo) => ({ ...cut, photo }), {
    ...PLAIN_FILE,
    format: 'jpeg',
    quality: 90,
  });
  const byHand = await sharp(path)
    .autoOrient()
    .extract({ left: 10, top: 4, width: 450, height: 45 })
    .resize(300, 30, { fit: 'fill' })
    .withIccProfile('srgb')
    .jpeg({ quality: 90, chromaSubsampling: '4:4:4' })
    .toBuffer();
  expect(bytes.equals(byHand)).toBe(true);
});
