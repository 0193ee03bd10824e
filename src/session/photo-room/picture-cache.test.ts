import { mkdtempSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { PictureCache } from './picture-cache.ts';

const folder = mkdtempSync(join(tmpdir(), 'selvedge-pictures-'));
const photo = join(folder, 'photo.jpg');
const before = process.env['SELVEDGE_CACHE'];

beforeAll(() => {
  process.env['SELVEDGE_CACHE'] = folder;
  writeFileSync(photo, 'a photo');
});
afterAll(() => {
  if (before === undefined) delete process.env['SELVEDGE_CACHE'];
  else process.env['SELVEDGE_CACHE'] = before;
});

it('makes each picture once, and again when the photo has changed', async () => {
  let made = 0;
  const cache = new PictureCache<{ size: number }>('once', 40, () => Promise.resolve(Buffer.from(`picture ${++made}`)));
  const first = await cache.fileFor(photo, { size: 1 });
  expect(await cache.fileFor(photo, { size: 1 })).toBe(first);
  expect(await cache.fileFor(photo, { size: 2 })).not.toBe(first);
  expect(readFileSync(first, 'utf8')).toBe('picture 1');
  utimesSync(photo, 1, 1);
  expect(await cache.fileFor(photo, { size: 1 })).not.toBe(first);
  expect(made).toBe(3);
});

it('makes a picture once for all who ask meanwhile, and again after that failed', async () => {
  let made = 0;
  const cache = new PictureCache<{ size: number }>('together', 40, async () => {
    made++;
    await new Promise(setImmediate);
    if (made === 1) throw new Error('not readable just then');
    return Buffer.from('picture');
  });
  const ask = (): Promise<string[]> => Promise.all([1, 2, 3].map(() => cache.fileFor(photo, { size: 1 })));
  await expect(ask()).rejects.toThrow('not readable just then');
  expect(new Set(await ask()).size).toBe(1);
  expect(made).toBe(2);
});

it('never keeps many more than it may', async () => {
  const cache = new PictureCache<{ size: number }>('bounded', 20, () => Promise.resolve(Buffer.from('picture')));
  for (let size = 0; size < 60; size++) await cache.fileFor(photo, { size });
  expect(readdirSync(join(folder, 'bounded')).length).toBeLessThanOrEqual(21);
});
