import { createHash } from 'node:crypto';
import { existsSync, readdirSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decodePhoto, type Pixels } from '../../src/photos/decode.ts';
import { digestOfFile } from '../../src/photos/digest.ts';
import { choosePictures } from '../../src/photos/file-names.ts';
import { asPhotoError, PhotoError, type PhotoProblem } from '../../src/photos/photo-error.ts';
import { readRating } from '../../src/photos/rating.ts';
import { readPhotoSize } from '../../src/photos/size.ts';
import { pngThatClaims } from './support/png.ts';

let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'selvedge-photos-'));
});

afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

it('a photo that may not be read says what would be right, without a code', () => {
  const { message } = asPhotoError(Object.assign(new Error('EACCES: permission denied'), { code: 'EACCES' }));
  expect(message).toBe('You may not read the photo. Change its permissions, or copy it to a folder that is yours.');
});

async function put(name: string, content: Buffer | string): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, content);
  return path;
}

/** 40 by 20 pixels: the left half red, the right half blue. */
function redAndBlue() {
  const data = Buffer.alloc(40 * 20 * 3);
  for (let pixel = 0; pixel < 800; pixel++) data[3 * pixel + (pixel % 40 < 20 ? 0 : 2)] = 255;
  return sharp(data, { raw: { width: 40, height: 20, channels: 3 } });
}

function pixelAt({ data, width }: Pixels, x: number, y: number): number[] {
  return Array.from(data.subarray(3 * (y * width + x), 3 * (y * width + x) + 3));
}

async function problemOf(promise: Promise<unknown>): Promise<PhotoProblem | undefined> {
  const error = await promise.catch((thrown: unknown) => thrown);
  return error instanceof PhotoError ? error.problem : undefined;
}

describe('decodePhoto', () => {
  it('turns the picture as its EXIF orientation says (6: the top is on the right side, Exif 2.32)', async () => {
    const path = await put('turned.png', await redAndBlue().withMetadata({ orientation: 6 }).png().toBuffer());
    const { size, pixels } = await decodePhoto(path, 1000);
    expect(size).toEqual({ width: 20, height: 40 });
    expect(pixels).toMatchObject({ width: 20, height: 40 });
    expect(pixelAt(pixels, 10, 2)).toEqual([255, 0, 0]);
    expect(pixelAt(pixels, 10, 37)).toEqual([0, 0, 255]);
    expect(await readPhotoSize(path)).toEqual({ width: 20, height: 40 });
  });

  it('makes it smaller, never larger, and says the whole size', async () => {
    const path = await put('plain.png', await redAndBlue().png().toBuffer());
    const small = await decodePhoto(path, 10);
    expect(small.pixels).toMatchObject({ width: 10, height: 5 });
    expect(small.size).toEqual({ width: 40, height: 20 });
    expect((await decodePhoto(path, 1000)).pixels.width).toBe(40);
  });

  it.each([
    ['grey', () => redAndBlue().greyscale().toColourspace('b-w').png()],
    ['grey with 16 bits', () => redAndBlue().greyscale().toColourspace('grey16').png()],
    ['16 bits', () => redAndBlue().toColourspace('rgb16').png()],
    ['CMYK', () => redAndBlue().toColourspace('cmyk').jpeg()],
    ['palette', () => redAndBlue().png({ palette: true })],
    ['WebP', () => redAndBlue().webp()],
    ['TIFF', () => redAndBlue().tiff()],
    ['AVIF', () => redAndBlue().avif()],
  ])('gives three bytes a pixel from %s', async (name, make) => {
    const path = await put(`kind-${name}`, await make().toBuffer());
    const { pixels } = await decodePhoto(path, 1000);
    expect(pixels.data.length).toBe(40 * 20 * 3);
    const [red, , blue] = pixelAt(pixels, 5, 10);
    if (name.startsWith('grey')) expect(red).toBe(blue);
    else expect(red! - blue!).toBeGreaterThan(100);
  });

  it('lays transparent parts on white', async () => {
    const clear = sharp({ create: { width: 8, height: 8, channels: 4, background: { r: 0, g: 0, b: 0, alpha: 0 } } });
    const path = await put('clear.png', await clear.png().toBuffer());
    expect(pixelAt((await decodePhoto(path, 8)).pixels, 4, 4)).toEqual([255, 255, 255]);
  });

  it('only reads the file', async () => {
    const path = await put('original.jpg', await redAndBlue().jpeg().toBuffer());
    const before = await digestOfFile(path);
    await decodePhoto(path, 100);
    expect(await digestOfFile(path)).toBe(before);
    expect(before).toBe(
      `sha256:${createHash('sha256')
        .update(await readFile(path))
        .digest('hex')}`,
    );
  });
});

describe('files that cannot be used', () => {
  const noise = sharp({
    create: {
      width: 400,
      height: 400,
      channels: 3,
      background: '#888',
      noise: { type: 'gaussian', mean: 128, sigma: 60 },
    },
  });

  it.each<[string, PhotoProblem, () => Promise<Buffer | string>]>([
    ['empty.jpg', 'empty', () => Promise.resolve('')],
    ['notes.jpg', 'not-a-picture', () => Promise.resolve('These are notes, not a picture.\n'.repeat(40))],
    [
      'pointer.jpg',
      'large-file-pointer',
      () => Promise.resolve('version https://git-lfs.github.com/spec/v1\noid sha256:4d7a2146\nsize 12345\n'),
    ],
    ['cut.jpg', 'damaged', async () => (await noise.clone().jpeg().toBuffer()).subarray(0, 20_000)],
    ['cut.png', 'damaged', async () => (await noise.clone().png().toBuffer()).subarray(0, 20_000)],
    ['cut.webp', 'damaged', async () => (await noise.clone().webp().toBuffer()).subarray(0, 9_000)],
    ['header-only.jpg', 'damaged', async () => (await noise.clone().jpeg().toBuffer()).subarray(0, 400)],
    ['huge.png', 'too-many-pixels', () => Promise.resolve(pngThatClaims(60_000, 60_000))],
  ])('%s: %s', async (name, problem, make) => {
    const path = await put(name, await make());
    expect(await problemOf(decodePhoto(path, 1600))).toBe(problem);
  });

  it('a missing file, and a folder', async () => {
    expect(await problemOf(decodePhoto(join(folder, 'nowhere.jpg'), 1600))).toBe('missing');
    expect(await problemOf(digestOfFile(join(folder, 'nowhere.jpg')))).toBe('missing');
    expect(await problemOf(decodePhoto(folder, 1600))).toBe('unreadable');
  });
});

describe('camera raw files', () => {
  it('are seen through their largest preview, turned as the raw file says', async () => {
    const small = await redAndBlue().resize(10, 5).jpeg().toBuffer();
    const large = await redAndBlue().jpeg().toBuffer();
    const path = await put('shot.nef', tiffWithPreviews(6, [small, large]));
    const { size, pixels } = await decodePhoto(path, 1000);
    expect(size).toEqual({ width: 20, height: 40 });
    expect(pixelAt(pixels, 10, 2)[0]).toBeGreaterThan(200);
    expect(pixelAt(pixels, 10, 37)[2]).toBeGreaterThan(200);
  });

  it('without a preview say so', async () => {
    expect(await problemOf(decodePhoto(await put('other.cr3', 'ftypcrx '.repeat(20)), 1600))).toBe('no-preview');
    expect(await problemOf(decodePhoto(await put('broken.nef', 'II*\0\xff\xff\xff\x7f'), 1600))).toBe('no-preview');
  });
});

describe('choosePictures', () => {
  it('counts a raw file beside its JPEG once, by folder and name', () => {
    const names = ['A.NEF', 'a.jpg', 'b.nef', 'c.txt', 'day/b.jpg', 'd.TIFF'];
    expect(choosePictures(names)).toEqual({
      pictures: ['a.jpg', 'b.nef', 'day/b.jpg', 'd.TIFF'],
      rawBesidePicture: ['A.NEF'],
    });
  });
});

describe('readRating', () => {
  it.each([
    ['as an attribute', '<rdf:Description xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmp:Rating="4"/>', 4],
    [
      'as an element',
      '<rdf:Description xmlns:xmp="http://ns.adobe.com/xap/1.0/"><xmp:Rating>-1</xmp:Rating></rdf:Description>',
      -1,
    ],
    ['of a file without one', '<rdf:Description/>', undefined],
  ])('reads the XMP rating %s', async (_, description, rating) => {
    const packet = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">${description}</rdf:RDF></x:xmpmeta>`;
    const path = await put(`rated-${rating}.jpg`, await redAndBlue().withXmp(packet).jpeg().toBuffer());
    expect(await readRating(path)).toBe(rating);
  });

  it('leaves no file open', async () => {
    const words = await put('words.tiff', 'MM\0*no picture');
    const open = (): number => (existsSync('/proc/self/fd') ? readdirSync('/proc/self/fd').length : 0);
    const before = open();
    for (let times = 0; times < 30; times++) await readRating(words);
    expect(open()).toBeLessThan(before + 10);
  });

  it('is silent about files that are no pictures', async () => {
    expect(await readRating(await put('words.jpg', 'no picture'))).toBeUndefined();
    expect(await readRating(join(folder, 'nowhere.jpg'))).toBeUndefined();
  });
});

/** A big-endian TIFF file with one directory a preview (TIFF 6.0), each holding a JPEG by tags 0x0201 and 0x0202. */
function tiffWithPreviews(orientation: number, previews: readonly Buffer[]): Buffer {
  const size = 2 + 3 * 12 + 4;
  let data = 8 + previews.length * size;
  const directories = previews.map((preview, index) => {
    const directory = Buffer.alloc(size);
    directory.writeUInt16BE(3, 0);
    const entries = [
      { tag: 0x0112, type: 3, value: orientation * 0x10000 },
      { tag: 0x0201, type: 4, value: data },
      { tag: 0x0202, type: 4, value: preview.length },
    ];
    entries.forEach(({ tag, type, value }, k) => {
      directory.writeUInt16BE(tag, 2 + 12 * k);
      directory.writeUInt16BE(type, 4 + 12 * k);
      directory.writeUInt32BE(1, 6 + 12 * k);
      directory.writeUInt32BE(value, 10 + 12 * k);
    });
    directory.writeUInt32BE(index + 1 < previews.length ? 8 + (index + 1) * size : 0, size - 4);
    data += preview.length;
    return directory;
  });
  return Buffer.concat([Buffer.from('4d4d002a00000008', 'hex'), ...directories, ...previews]);
}
