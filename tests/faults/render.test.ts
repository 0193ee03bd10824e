import { mkdirSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, describe, expect, test } from 'vitest';
import { renderSession } from '../../src/session/outputs/render-session.ts';
import { openSession } from '../../src/session/session.ts';
import { digestsIn, folderWith, selvedge } from '../cli/workspace.ts';
import { runChild } from './support/child.ts';
import { smallDisk, whyNoSmallDisk, type SmallDisk } from './support/small-disk.ts';

const NAMES = Array.from({ length: 6 }, (_, index) => `p${index}.jpg`);
const noise = {
  create: {
    width: 700,
    height: 500,
    channels: 3,
    background: '#666',
    noise: { type: 'gaussian', mean: 128, sigma: 40 },
  },
} as const;

async function session(): Promise<string> {
  const photo = await sharp(noise).jpeg().toBuffer();
  const manifest = `selvedge: 1\nphotos: proofs\ndeliver:\n  web: { aspect: original, long: 600px }\nframes:\n${NAMES.map((name) => `  - photo: ${name}\n`).join('')}`;
  return folderWith({ 'crops.yaml': manifest, ...Object.fromEntries(NAMES.map((name) => [`proofs/${name}`, photo])) });
}

const HALF_WRITTEN = /\.\d+$/;

/** As if the next run came later: what lies there for a minute belongs to nobody. */
function age(folder: string): void {
  for (const name of readdirSync(folder)) if (HALF_WRITTEN.test(name)) utimesSync(join(folder, name), 0, 0);
}

test.each(Array.from({ length: 20 }, (_, index) => index))(
  'killed at moment %i: the next run finishes the rest',
  async (index) => {
    const folder = await session();
    const to = join(folder, 'out');
    mkdirSync(to);
    const argv = ['render', folder, '--to', to];
    const moment =
      index % 2 === 0
        ? { milliseconds: 150 + 60 * index }
        : { folder: to, name: /\.jpg/, nth: 1 + Math.floor(index / 2) };
    await runChild(argv, moment);
    age(to);
    const { code, out } = await selvedge(...argv);
    expect(out).toContain('0 not made');
    expect(code).toBe(0);
    const files = NAMES.map((name) => name.replace('.jpg', '-web.jpg'));
    expect(readdirSync(to).sort()).toEqual(['.selvedge-rendered.jsonl', ...files].sort());
    for (const file of files) expect((await sharp(join(to, file)).stats()).channels).toHaveLength(3);
  },
);

test('two renders at once into one folder', async () => {
  const folder = await session();
  const to = join(folder, 'out');
  const argv = ['render', folder, '--to', to];
  const ends = await Promise.all([runChild(argv), runChild(argv)]);
  expect(ends.map(({ code }) => code)).toEqual([0, 0]);
  const before = digestsIn(to, /\.jpg$/);
  expect(Object.keys(before)).toHaveLength(NAMES.length);
  expect((await selvedge(...argv)).out).toContain('0 files written');
  expect(digestsIn(to, /\.jpg$/)).toEqual(before);
});

test('a photo that vanishes, and one that is cut off, while the run is under way: told, the rest is made, a rerun goes on', async () => {
  const folder = await session();
  const to = join(folder, 'out');
  const proof = (name: string): string => join(folder, 'proofs', name);
  const whole = readFileSync(proof('p4.jpg'));
  let hasBegun = false;
  const report = await renderSession(await openSession(join(folder, 'crops.yaml')), {
    to,
    onProgress: () => {
      // By now every photo has been looked at, and was there.
      if (hasBegun) return;
      hasBegun = true;
      rmSync(proof('p5.jpg'));
      writeFileSync(proof('p4.jpg'), whole.subarray(0, whole.length / 2));
    },
  });
  expect(report.failed.map(({ frame }) => frame)).toEqual(['p4.jpg', 'p5.jpg']);
  expect(report.failed.map(({ message }) => message)).toEqual([
    expect.stringContaining('damaged or cut short'),
    expect.stringContaining('The photo is not there.'),
  ]);
  expect(report.written.map(({ name }) => name)).toEqual(NAMES.slice(0, 4).map((name) => name.replace('.', '-web.')));
  expect(readdirSync(to).filter((name) => name.endsWith('.jpg'))).toHaveLength(4);
  for (const name of ['p4.jpg', 'p5.jpg']) writeFileSync(proof(name), whole);
  expect((await selvedge('render', folder, '--to', to)).out).toMatch(/^2 files written .*, 4 up to date, 0 not made/m);
});

// Where case does not count there are no such photos.
test.skipIf(process.platform !== 'linux')(
  'photos whose names differ by case alone: each has a file of its own, also where case does not count',
  async () => {
    const colours = { 'P.jpg': '#ff0000', 'p.jpg': '#0000ff', 'P.JPG': '#00ff00' };
    const photos = Object.fromEntries(
      await Promise.all(
        Object.entries(colours).map(async ([name, background]) => {
          const photo = sharp({ create: { width: 60, height: 60, channels: 3, background } });
          return [`proofs/${name}`, await photo.jpeg().toBuffer()] as const;
        }),
      ),
    );
    const frames = Object.keys(colours).map((name) => `  - photo: ${name}\n`);
    const deliver = 'deliver:\n  web: { aspect: original, long: 30px, format: png }\n';
    const folder = folderWith({ ...photos, 'crops.yaml': `selvedge: 1\nphotos: proofs\n${deliver}frames:\n${frames.join('')}` }); // prettier-ignore
    const report = await renderSession(await openSession(join(folder, 'crops.yaml')), { to: join(folder, 'out') });
    const names = report.written.map(({ name }) => name);
    expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(3);
    const means = await Promise.all(
      names.map(async (name) =>
        (await sharp(join(folder, 'out', name)).stats()).channels.map(({ mean }) => (mean > 128 ? 1 : 0)),
      ),
    );
    expect(means.map((mean) => mean.slice(0, 3).join(''))).toEqual(['100', '001', '010']);
  },
);

const reason = whyNoSmallDisk();

describe.skipIf(reason !== undefined)(`a disk of its own${reason === undefined ? '' : ` (skipped: ${reason})`}`, () => {
  let disk: SmallDisk;

  afterEach(() => {
    disk.remove();
  });

  test('full: one message, no half file, and a rerun with room goes on', async () => {
    const folder = await session();
    disk = smallDisk(300);
    const argv = ['render', folder, '--to', disk.folder];
    const { code, out } = await selvedge(...argv);
    expect(code).toBe(2);
    expect(out.match(/the disk is full/g)).toHaveLength(1);
    expect(out).toContain('left; the same command goes on from here.');
    for (const name of readdirSync(disk.folder).filter((file) => file.endsWith('.jpg'))) {
      expect((await sharp(readFileSync(join(disk.folder, name))).stats()).channels).toHaveLength(3);
    }
    // Which of them were written is chance: two processors are at work.
    for (const name of readdirSync(disk.folder).filter((file) => file.endsWith('.jpg')))
      rmSync(join(disk.folder, name));
    expect((await selvedge(...argv, '--frame', 'p0.jpg')).code).toBe(0);
  });

  test('read-only: said before anything is begun', async () => {
    disk = smallDisk();
    disk.readOnly();
    const { code, err } = await selvedge('render', await session(), '--to', disk.folder);
    expect(code).toBe(2);
    expect(err).toContain('cannot be written: the disk is read-only. Nothing was begun.');
  });
});
