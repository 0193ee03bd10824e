import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { run } from '../../src/cli/run.ts';
import { checkJson, CLEAN, digestsIn, folderWith, KNEES, peopleFile, picture, selvedge } from './workspace.ts';

const HEAD = 'selvedge: 1\nsession: Harbour/late\nphotos: proofs\naspect: free\ncompose: free\n';
const SQUARE = 'deliver:\n  square: { aspect: "1:1", long: 30px }\n';
const RECORD = '.selvedge-rendered.jsonl';

interface Given {
  readonly deliver?: string;
  readonly frames?: string;
  readonly photos?: Readonly<Record<string, Buffer>>;
}

async function session({ deliver = SQUARE, frames, photos }: Given = {}): Promise<{
  folder: string;
  to: string;
  manifest: string;
}> {
  const all = photos ?? { 'a.jpg': await picture(80, 120), 'b.jpg': await picture(80, 120) };
  const entries =
    frames ??
    Object.keys(all)
      .map((name) => `  - photo: ${name}\n`)
      .join('');
  const folder = folderWith({
    'session/crops.yaml': `${HEAD}${deliver}frames:\n${entries}`,
    ...Object.fromEntries(Object.entries(all).map(([name, bytes]) => [`session/proofs/${name}`, bytes])),
  });
  return { folder, to: join(folder, 'out'), manifest: join(folder, 'session/crops.yaml') };
}

const pictures = (to: string): string[] =>
  (readdirSync(to, { recursive: true }) as string[]).filter((name) => /\.(jpg|png|tif|webp|avif)$/.test(name)).sort();

describe('render', () => {
  test('makes a file of its size for every frame and output, and touches no photo', async () => {
    const { folder, to, manifest } = await session();
    const before = digestsIn(join(folder, 'session'));
    const { code, out } = await selvedge('render', manifest, '--to', to);
    expect(out).toMatch(/^2 files written to \S+, 0 up to date, 0 not made\n/);
    expect(code).toBe(0);
    expect(pictures(to)).toEqual(['a-square.jpg', 'b-square.jpg']);
    expect(await sharp(join(to, 'a-square.jpg')).metadata()).toMatchObject({ width: 30, height: 30, format: 'jpeg' });
    expect(digestsIn(join(folder, 'session'))).toEqual(before);
  });

  test('says of each file what a check says of its crop, in the same words', async () => {
    const folder = folderWith({
      'a.jpg': await picture(400, 600),
      'crops.yaml':
        'selvedge: 1\naspect: free\ncompose: free\ndeliver:\n  square: { aspect: "1:1", long: 100px }\n' +
        '  wall: { aspect: free, long: 30cm, bleed: 5mm, ppi: 72 }\nframes:\n' +
        `  - photo: a.jpg\n    crop: ${CLEAN}\n    deliver: { wall: { x: 0, y: 0, w: 1, h: 1 } }\n`,
      'crops.people.jsonl': peopleFile({ 'a.jpg': 'standing' }).replace('[4000,6000]', '[400,600]'),
    });
    const manifest = join(folder, 'crops.yaml');
    const { report } = await checkJson(manifest);
    const told = report.manifests[0]!.frames[0]!.findings.filter(({ rule }) => ['length', 'print-resolution', 'print-bleed'].includes(rule)); // prettier-ignore
    expect(new Set(told.map(({ rule }) => rule)).size).toBe(3);
    const to = join(folderWith({}), 'out');
    for (const written of ['2 files written', '0 files written']) {
      const { out } = await selvedge('render', manifest, '--to', to);
      expect(out).toContain(written);
      for (const { rule, output, message } of told) {
        const words = message.replace(`Output ${String(output)}: `, '');
        expect(out).toContain(`a-${String(output)}.jpg: ${words}  [${rule}]\n`);
      }
    }
  });

  test('names each file whose crop has an error, counts those with warnings, and answers 1; all are made', async () => {
    const face = '{ x: 0.2, y: 0.32, w: 0.6, h: 0.64 }';
    const frames = [face, KNEES, CLEAN].map((crop) => `  - photo: a.jpg\n    crop: ${crop}\n`).join('');
    const folder = folderWith({
      'a.jpg': await picture(400, 600),
      'crops.yaml': `${HEAD.replace('photos: proofs\n', '')}deliver:\n  web: { aspect: free }\nframes:\n${frames}`,
      'crops.people.jsonl': peopleFile({ 'a.jpg': 'standing' }).replace('[4000,6000]', '[400,600]'),
    });
    const manifest = join(folder, 'crops.yaml');
    const { report } = await checkJson(manifest);
    const errors = report.manifests[0]!.frames.map(({ findings }) =>
      findings.filter(({ severity }) => severity === 'error'),
    );
    expect(errors.map(({ length }) => length)).toEqual([1, 0, 0]);
    const warned = report.manifests[0]!.frames.filter(({ findings }) =>
      findings.some(({ severity }) => severity === 'warning'),
    );
    expect(warned).toHaveLength(2);
    const to = join(folderWith({}), 'out');
    for (const written of ['3 files written', '0 files written']) {
      const { code, out } = await selvedge('render', manifest, '--to', to);
      expect(code).toBe(1);
      expect(out).toContain(written);
      expect(out).toContain(`a-web.jpg: error  ${errors[0]![0]!.message}  [face-cut]\n`);
      expect(out).toContain(`${warned.length} files have warnings; selvedge check says which\n`);
      expect(pictures(to)).toHaveLength(3);
    }
    const one = await selvedge('render', manifest, '--to', to, '--frame', 'a.jpg#2');
    expect(one.code).toBe(0);
    writeFileSync(
      manifest,
      readFileSync(manifest, 'utf8').replace(face, `${face}\n    allow: { face-cut: "as agreed" }`),
    );
    expect((await selvedge('render', manifest, '--to', to)).code).toBe(0);
  });

  test('names a file whose crop was found near a main crop with an error, and answers 1', async () => {
    const folder = folderWith({
      'a.jpg': await picture(400, 600),
      'crops.yaml':
        `${HEAD.replace('photos: proofs\n', '')}deliver:\n  square: { aspect: "1:1", long: 100px }\nframes:\n` +
        '  - photo: a.jpg\n    crop: { x: 0.7, y: 0, w: 0.5, h: 0.9 }\n',
      'crops.people.jsonl': peopleFile({ 'a.jpg': 'standing' }).replace('[4000,6000]', '[400,600]'),
    });
    const to = join(folderWith({}), 'out');
    const { code, out } = await selvedge('render', join(folder, 'crops.yaml'), '--to', to);
    expect(code).toBe(1);
    expect(out).toMatch(
      /^a-square\.jpg: error {2}This was found near a main crop with an error: .+ \[outside-photo\]$/m,
    );
    expect(pictures(to)).toHaveLength(1);
  });

  test('a second run leaves everything as it is, and makes only what changed or is gone', async () => {
    const { to, manifest } = await session();
    await selvedge('render', manifest, '--to', to);
    const before = digestsIn(to);
    expect((await selvedge('render', manifest, '--to', to)).out).toContain('0 files written');
    expect(digestsIn(to)).toEqual(before);
    rmSync(join(to, 'a-square.jpg'));
    expect((await selvedge('render', manifest, '--to', to)).out).toContain('1 file written');
    expect(pictures(to)).toEqual(['a-square.jpg', 'b-square.jpg']);
    writeFileSync(manifest, readFileSync(manifest, 'utf8').replace('30px', '24px'));
    expect((await selvedge('render', manifest, '--to', to)).out).toContain('2 files written');
    expect(await sharp(join(to, 'b-square.jpg')).metadata()).toMatchObject({ width: 24 });
  });

  test('names files that an earlier run made and the session makes no more, and deletes none', async () => {
    const { to, manifest } = await session();
    await selvedge('render', manifest, '--to', to);
    const other = await session({ photos: { 'z.jpg': await picture() } });
    await selvedge('render', other.manifest, '--to', to);
    const text = readFileSync(manifest, 'utf8');
    writeFileSync(manifest, text.replace('  - photo: a.jpg\n', ''));
    const gone = '1 file here is of no frame or output any more: a-square.jpg; delete it if nobody needs it\n';
    const { code, out } = await selvedge('render', manifest, '--to', to);
    expect(out).toContain(gone);
    expect(code).toBe(0);
    expect((await selvedge('render', manifest, '--to', to, '--shard', '1/1')).out).not.toContain('any more');
    expect((await selvedge('render', manifest, '--to', to, '--output', 'square')).out).not.toContain('any more');
    expect(pictures(to)).toEqual(['a-square.jpg', 'b-square.jpg', 'z-square.jpg']);
    // An entry that cannot be read may be the file's.
    writeFileSync(manifest, text.replace('photo: a.jpg', 'phto: a.jpg'));
    expect((await selvedge('render', manifest, '--to', to)).out).not.toContain('any more');
    writeFileSync(manifest, text.replace('square:', 'web:'));
    const two = '2 files here are of no frame or output any more: a-square.jpg, b-square.jpg; delete them if';
    expect((await selvedge('render', manifest, '--to', to)).out).toContain(two);
    writeFileSync(join(to, 'a-square.jpg'), 'somebody’s own by now');
    expect((await selvedge('render', manifest, '--to', to)).out).toContain(gone.replace('a-square', 'b-square'));
  });

  test('one output and one frame: the file has the name that it has among all', async () => {
    const deliver = 'deliver:\n  a: { aspect: "1:1", name: "x" }\n  b: { aspect: "1:1", name: "X" }\n';
    const { to, manifest } = await session({ deliver, frames: '  - photo: a.jpg\n  - photo: a.jpg\n' });
    const { out } = await selvedge('render', manifest, '--to', to, '--output', 'b', '--frame', 'a.jpg#2');
    expect(out).toContain('1 file written');
    expect(pictures(to)).toEqual(['X-4.jpg']);
  });

  test('names that differ only by case never meet', async () => {
    const photos = { 'a.jpg': await picture(), 'A.JPG': await picture() };
    const { to, manifest } = await session({ photos, frames: '  - photo: a.jpg\n  - photo: A.JPG\n' });
    await selvedge('render', manifest, '--to', to);
    expect(pictures(to)).toEqual(['A-square-2.jpg', 'a-square.jpg']);
  });

  test('a template makes folders, what it fills in does not', async () => {
    const deliver = 'deliver:\n  web: { aspect: "1:1", format: png, name: "{output}/{session} {stem}" }\n';
    const { to, manifest } = await session({ deliver, frames: '  - photo: a.jpg\n' });
    await selvedge('render', manifest, '--to', to);
    expect(pictures(to)).toEqual(['web', 'web/Harbour-late a.png'].slice(1));
  });

  test.each(['jpeg', 'png', 'tiff', 'webp', 'avif'])('writes %s', async (format) => {
    const deliver = `deliver:\n  one: { aspect: "2:3", long: 30px, format: ${format} }\n`;
    const { to, manifest } = await session({ deliver, frames: '  - photo: a.jpg\n' });
    await selvedge('render', manifest, '--to', to);
    const { width, height, format: found } = await sharp(join(to, pictures(to)[0]!)).metadata();
    expect([width, height, found]).toEqual([20, 30, format === 'avif' ? 'heif' : format]);
  });
});

describe('render never writes', () => {
  test('into the photos folder, however it is spelt', async () => {
    const { folder, manifest } = await session();
    symlinkSync(join(folder, 'session/proofs'), join(folder, 'link'));
    for (const to of ['session/proofs', 'session/proofs/new', 'session/../session/proofs', 'link', 'link/new']) {
      const { code, err } = await selvedge('render', manifest, '--to', join(folder, to));
      expect(code).toBe(2);
      expect(err).toContain('is in the photos folder, where only photos are. Name a folder beside it.');
    }
    expect(readdirSync(join(folder, 'session/proofs'))).toEqual(['a.jpg', 'b.jpg']);
  });

  test('into a place that is no folder, or a folder named ~; it says what would be right', async () => {
    const { folder, manifest } = await session();
    writeFileSync(join(folder, 'file'), '');
    const inTheWay = await selvedge('render', manifest, '--to', join(folder, 'file'));
    expect(inTheWay.code).toBe(2);
    expect(inTheWay.err).toContain('a file stands where a folder is to be; name another place');
    for (const to of ['~/out', '~']) {
      const { code, err } = await selvedge('render', manifest, '--to', to);
      expect(code).toBe(2);
      expect(err).toContain(`Leave the quotes out, or write ${join(homedir(), to.slice(1))}.`);
    }
    expect(existsSync('~')).toBe(false);
  });

  test('among the photos of another session, whose manifest is there or above; what was rendered there before may be', async () => {
    const one = await session();
    const other = await session();
    const [proofs, home] = [join(other.folder, 'session/proofs'), join(other.folder, 'session')];
    const refused = await selvedge('render', one.manifest, '--to', proofs);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain(`has the photos of another session (${join(home, 'crops.yaml')})`);
    expect(readdirSync(proofs)).toEqual(['a.jpg', 'b.jpg']);
    expect((await selvedge('render', one.manifest, '--to', join(home, 'delivered'))).code).toBe(0);
    expect((await selvedge('init', '--finished', join(home, 'delivered'))).code).toBe(0);
    expect((await selvedge('render', one.manifest, '--to', join(home, 'delivered'))).code).toBe(0);
  });

  test('over a file that it did not write, or that somebody changed', async () => {
    const { to, manifest } = await session();
    mkdirSync(to);
    writeFileSync(join(to, 'a-square.jpg'), 'my own');
    const first = await selvedge('render', manifest, '--to', to);
    expect(first.code).toBe(1);
    expect(first.out).toContain('a.jpg, square: There is a file of this name that this program did not write');
    expect(first.out).toContain('1 file written');
    writeFileSync(join(to, 'b-square.jpg'), 'retouched');
    writeFileSync(manifest, readFileSync(manifest, 'utf8').replace('30px', '24px'));
    expect((await selvedge('render', manifest, '--to', to)).out).toContain('0 files written');
    expect(readFileSync(join(to, 'a-square.jpg'), 'utf8')).toBe('my own');
    expect(readFileSync(join(to, 'b-square.jpg'), 'utf8')).toBe('retouched');
  });

  test('over the picture of another session, whose photo has the same name', async () => {
    const one = await session({ photos: { '0001.jpg': await picture(80, 120) } });
    const other = await session({ photos: { '0001.jpg': await picture(90, 120) } });
    await selvedge('render', one.manifest, '--to', one.to);
    const before = readFileSync(join(one.to, '0001-square.jpg'));
    const { code, out } = await selvedge('render', other.manifest, '--to', one.to);
    expect(code).toBe(1);
    expect(out).toContain('rendered here for another session');
    expect(readFileSync(join(one.to, '0001-square.jpg'))).toEqual(before);
  });

  test('a crop that was made without knowing where anybody stands is told', async () => {
    const { manifest, to } = await session({ deliver: 'deliver:\n  square: { aspect: "1:1", long: 30px }\n' });
    expect((await selvedge('render', manifest, '--to', to)).out).toContain(
      'a-square.jpg: Nobody has measured the people in the photo, so this crop was made without knowing where they stand. Run selvedge measure first.  [not-measured]',
    );
  });

  test('over the picture of another manifest of the same photos; a manifest that was moved keeps its own', async () => {
    const { folder, manifest, to } = await session();
    const second = join(folder, 'session/second.crops.yaml');
    writeFileSync(second, readFileSync(manifest, 'utf8').replace('30px', '24px'));
    expect((await selvedge('render', manifest, '--to', to)).code).toBe(0);
    const before = readFileSync(join(to, 'a-square.jpg'));
    const { code, out } = await selvedge('render', second, '--to', to);
    expect(code).toBe(1);
    expect(out).toContain('a.jpg, square: A file of this name was rendered here for another session.');
    expect(readFileSync(join(to, 'a-square.jpg'))).toEqual(before);
    renameSync(manifest, join(folder, 'session/moved.crops.yaml'));
    rmSync(second);
    const moved = await selvedge('render', join(folder, 'session/moved.crops.yaml'), '--to', to);
    expect(moved.out).toContain('2 up to date');
  });

  test('into a folder without a name', async () => {
    const { manifest } = await session();
    const { code, err } = await selvedge('render', manifest, '--to', '');
    expect(code).toBe(2);
    expect(err).toContain('has no name');
  });

  test('through a link in the target that leads out of it', async () => {
    const deliver = 'deliver:\n  web: { aspect: "1:1", name: "sub/{stem}-new" }\n';
    const { folder, to, manifest } = await session({ deliver });
    mkdirSync(to);
    symlinkSync(join(folder, 'session/proofs'), join(to, 'sub'));
    const { code, out } = await selvedge('render', manifest, '--to', to);
    expect(code).toBe(1);
    expect(out).toContain('is a link that leads out of');
    expect(readdirSync(join(folder, 'session/proofs'))).toEqual(['a.jpg', 'b.jpg']);
  });
});

describe('render says what is wrong, and makes the rest', () => {
  test('entries that are no frames, and values that cannot be read', async () => {
    const frames = '  - photo: a.jpg\n  - foto: b.jpg\n  - photo: b.jpg\n    straighten: much\n';
    const { to, manifest } = await session({ frames });
    const { code, out } = await selvedge('render', manifest, '--to', to);
    expect(code).toBe(1);
    expect(out).toContain('1 of the entries of frames cannot be read');
    expect(out).toContain('b.jpg, square: its entry cannot be read as it is: straighten');
    expect(pictures(to)).toEqual(['a-square.jpg']);
  });

  test('nothing is made of a text whose merge was not finished', async () => {
    const frames = '<<<<<<< ours\n  - photo: a.jpg\n=======\n  - photo: b.jpg\n>>>>>>> theirs\n';
    const { to, manifest } = await session({ frames });
    const { code, err } = await selvedge('render', manifest, '--to', to);
    expect(code).toBe(2);
    expect(err).toContain('a merge was not finished here');
    expect(existsSync(to)).toBe(false);
  });

  test('photos that are gone, pointers, damaged, raw without a preview', async () => {
    const photos = {
      'good.jpg': await picture(80, 120),
      'pointer.jpg': Buffer.from('version https://git-lfs.github.com/spec/v1\noid sha256:0\nsize 1\n'),
      'short.jpg': (await picture(400, 400)).subarray(0, 300),
      'raw.nef': Buffer.from('II*\0\x08\0\0\0\0\0\0\0\0\0'),
    };
    const names = [...Object.keys(photos), 'gone.jpg'];
    const frames = names.map((name) => `  - photo: ${name}\n`).join('');
    const { to, manifest } = await session({ photos, frames });
    const { code, out } = await selvedge('render', manifest, '--to', to);
    expect(code).toBe(1);
    expect(out).toContain('pointer.jpg, square: pointer.jpg: The file is only a pointer to large-file storage');
    expect(out).toContain('gone.jpg, square: The photo is not there.');
    expect(out).toMatch(/short\.jpg, square: .*(damaged|cut short|decoded)/);
    expect(out).toContain('raw.nef, square: raw.nef: The camera raw file holds no preview');
    expect(pictures(to)).toEqual(['good-square.jpg']);
  });

  test('an output with an error, a size that no file holds, a crop outside the photo', async () => {
    const deliver =
      'deliver:\n  bad: { aspect: "1:1", long: 3 metres }\n  huge: { aspect: "1:1", long: 9000cm }\n  fine: { aspect: free }\n';
    const frames = '  - photo: a.jpg\n  - photo: b.jpg\n    crop: { x: 0, y: 0, w: 1, h: 1 }\n    straighten: 3\n';
    const { to, manifest } = await session({ deliver, frames });
    const { code, out } = await selvedge('render', manifest, '--to', to);
    expect(code).toBe(1);
    expect(out).toMatch(/a\.jpg, bad: deliver\.bad\.long/);
    expect(out).toContain('a.jpg, huge: The file would be');
    expect(out).toContain('b.jpg, fine: A corner of the crop lies outside the photo');
    expect(pictures(to)).toEqual(['a-fine.jpg']);
  });

  test('nothing to deliver, and names that there are not', async () => {
    const { to, manifest } = await session({ deliver: '' });
    expect((await selvedge('render', manifest, '--to', to)).err).toContain('delivers nothing');
    const other = await session();
    const { code, err } = await selvedge('render', other.manifest, '--to', to, '--output', 'sqare');
    expect([code, err]).toEqual([2, expect.stringContaining('delivers no "sqare". Did you mean square?')]);
    expect((await selvedge('render', other.manifest, '--to', to, '--frame', 'a.jgp')).err).toContain(
      'Did you mean a.jpg?',
    );
    expect(existsSync(to)).toBe(false);
  });
});

test('a photo whose people are measured is cut near its main crop, not in the middle', async () => {
  const photo = await sharp({ create: { width: 4000, height: 6000, channels: 3, background: '#777' } })
    .jpeg()
    .toBuffer();
  const { folder, to, manifest } = await session({
    photos: { 'a.jpg': photo },
    frames: `  - photo: a.jpg\n    crop: ${CLEAN}\n`,
  });
  writeFileSync(join(folder, 'session/crops.people.jsonl'), peopleFile({ 'a.jpg': 'standing' }));
  expect((await selvedge('render', manifest, '--to', to)).code).toBe(0);
  expect(pictures(to)).toEqual(['a-square.jpg']);
});

test('an interrupt keeps what is done, and the next run finishes the rest', async () => {
  const names = Array.from({ length: 12 }, (_, index) => `p${index}.jpg`);
  const photo = await picture(900, 1200);
  const { to, manifest } = await session({ photos: Object.fromEntries(names.map((name) => [name, photo])) });
  const interrupt = new AbortController();
  let out = '';
  const code = await run(['render', manifest, '--to', to], {
    stdout: { write: (text) => (out += text) },
    stderr: {
      get isTTY() {
        return false;
      },
      write: () => undefined,
    },
    signal: abortWhen(interrupt, () => existsSync(to) && pictures(to).length >= 2),
  });
  expect(code).toBe(130);
  expect(out).toContain('The same command goes on from here.');
  const done = pictures(to).length;
  expect(done).toBeGreaterThanOrEqual(2);
  const { out: rest } = await selvedge('render', manifest, '--to', to);
  expect(rest).toContain(`${12 - done} file${12 - done === 1 ? '' : 's'} written`);
  expect(pictures(to)).toHaveLength(12);
  expect(readFileSync(join(to, RECORD), 'utf8').split('\n').filter(Boolean)).toHaveLength(12);
});

/** A signal that is aborted as soon as something is so. */
function abortWhen(controller: AbortController, isSo: () => boolean): AbortSignal {
  const watch = setInterval(() => {
    if (!isSo()) return;
    controller.abort();
    clearInterval(watch);
  }, 1);
  return controller.signal;
}
