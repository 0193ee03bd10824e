import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, parse } from 'node:path';
import fc from 'fast-check';
import sharp from 'sharp';
import { expect, test, vi } from 'vitest';
import { parseManifest } from '../../src/manifest/parse.ts';
import { RULE_CATALOGUE } from '../../src/session/file-rules.ts';
import { initSession } from '../../src/session/init.ts';
import { writeTextFile } from '../../src/session/text-file.ts';
import { digestsIn, folderWith, picture, selvedge } from './workspace.ts';

/** Photos and crops of the manifest that `init` wrote; it must have no problem. */
function written(folder: string): { photos: string[]; crops: unknown[] } {
  const manifest = parseManifest(readFileSync(join(folder, 'crops.yaml'), 'utf8'), RULE_CATALOGUE);
  expect(manifest.problems).toEqual([]);
  return {
    photos: manifest.frames.map(({ photo }) => photo.value),
    crops: manifest.frames.map(({ crop }) => crop && [crop.value.x, crop.value.y, crop.value.w, crop.value.h]),
  };
}

async function rated(stars: number): Promise<Buffer> {
  const xmp =
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">' +
    `<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmp:Rating="${stars}"/>` +
    '</rdf:RDF></x:xmpmeta>';
  return sharp(await picture())
    .withXmp(xmp)
    .jpeg()
    .toBuffer();
}

test('one frame per photo in the order of a contact sheet; raw beside a picture counts once; the rest stays out', async () => {
  const jpeg = await picture();
  const folder = folderWith({
    '10.jpg': jpeg,
    '9.jpg': jpeg,
    '9.NEF': 'raw',
    '11.cr2': 'raw alone',
    'notes.txt': 'call the client',
    '.hidden.jpg': jpeg,
    'late light/Zoë: #1.jpg': jpeg,
    'back\\slash.jpg': jpeg,
  });
  const before = digestsIn(folder);
  const { code, out } = await selvedge('init', folder);
  expect(code).toBe(0);
  expect(written(folder)).toEqual({
    photos: ['9.jpg', '10.jpg', '11.cr2', 'late light/Zoë: #1.jpg'],
    crops: [undefined, undefined, undefined, undefined],
  });
  expect(out).toContain('4 frames');
  expect(out).toContain('left out: 1 raw file beside a photo of the same name (counted once): 9.NEF\n');
  expect(out).toContain('backslash');
  const after = digestsIn(folder);
  delete after['crops.yaml'];
  expect(after).toEqual(before);
});

const LINUX_ONLY = process.platform === 'linux';

test.runIf(LINUX_ONLY)(
  'every file name that init lists is read back as the same name, and leads to the file',
  async () => {
    const odd = fc.constantFrom(' ', '  ', '#', ': ', ' #', ':', '"', "'", '\\', '\t', '\n', '\r', '\u0085', '\u2028', '\u007f', '\ufeff', '\ufffe',
    '\ufffd', '\u202e', '\u001b', '-', '- ', '?', '*', '&', '!', '%', '@', '`', '{', '}', '[', ',', '|', '>', '~', '=', '<<', 'C:', 'é', 'e\u0301', '😀'); // prettier-ignore
    const name = fc
      .array(fc.oneof(odd, fc.string({ unit: 'binary', maxLength: 4 }), fc.constantFrom('a', '1', 'null', '..')), {
        minLength: 1,
        maxLength: 6,
      })
      .map((parts) => parts.join('').replace(/[/\0]|\p{Cs}/gu, ''))
      .filter((stem) => stem !== '' && !stem.startsWith('.') && Buffer.byteLength(stem) < 200);
    await fc.assert(
      fc.asyncProperty(fc.uniqueArray(name, { minLength: 1, maxLength: 40 }), async (stems) => {
        const names = stems.map((stem) => `${stem}.jpg`);
        const folder = folderWith(Object.fromEntries([...names, 'plain.jpg'].map((each) => [each, 'x'])));
        const { pictures, unnameable } = await initSession(folder);
        expect([...pictures, ...unnameable].sort()).toEqual([...names, 'plain.jpg'].sort());
        const { photos } = written(folder);
        expect(photos).toEqual(pictures);
        expect(photos.filter((photo) => !existsSync(join(folder, photo)))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  },
);

test.runIf(LINUX_ONLY)('names that are no UTF-8 are left out and said; the folder beside them is read', async () => {
  const folder = folderWith({ 'a.jpg': 'x', 'b/c.jpg': 'x', 'real \ufffd.jpg': 'x' });
  const bytes = (text: string, byte: number): Buffer => Buffer.concat([Buffer.from(`${folder}/${text}`), Buffer.from([byte])]); // prettier-ignore
  writeFileSync(Buffer.concat([bytes('broken', 0xff), Buffer.from('.jpg')]), 'x');
  mkdirSync(bytes('folder', 0xfe));
  writeFileSync(Buffer.concat([bytes('folder', 0xfe), Buffer.from('/in.jpg')]), 'x');
  const { code, out } = await selvedge('init', folder);
  expect(code).toBe(0);
  expect(written(folder).photos).toEqual(['a.jpg', 'b/c.jpg', 'real \ufffd.jpg']);
  expect(out).toContain('left out: 1 photo with a name that a manifest cannot carry');
  expect(out).toContain('left out: 1 folder that cannot be looked into');
});

test('a folder in which no name can be carried is exit 2, and says so', async () => {
  const { code, err } = await selvedge('init', folderWith({ 'a\\b.jpg': 'x' }));
  expect(code).toBe(2);
  expect(err).toContain('has a name that a manifest can carry; nothing was written.');
});

test('what render wrote is left out and said, but not when its very folder is named', async () => {
  const folder = folderWith({ 'proofs/a.jpg': await picture() });
  writeFileSync(
    join(folder, 'proofs', 'crops.yaml'),
    'selvedge: 1\ndeliver:\n  web: { aspect: original, long: 40px, name: "web/{stem}" }\nframes:\n  - photo: a.jpg\n    crop: { x: 0, y: 0, w: 1, h: 1 }\n',
  );
  const delivered = join(folder, 'delivered');
  expect((await selvedge('render', join(folder, 'proofs'), '--to', delivered)).out).toContain('1 file written');
  writeFileSync(join(delivered, 'web', 'b.jpg'), await picture());
  const { code, out } = await selvedge('init', folder);
  expect(code).toBe(0);
  expect(written(folder).photos).toEqual(['delivered/web/b.jpg', 'proofs/a.jpg']);
  expect(out).toContain('left out: 1 photo that selvedge render wrote');
  expect((await selvedge('init', '--finished', delivered)).code).toBe(0);
  expect(written(delivered).photos).toEqual(['web/a.jpg', 'web/b.jpg']);
});

test('--finished writes each picture as it is', async () => {
  const folder = folderWith({ 'a.jpg': await picture() });
  expect((await selvedge('init', '--finished', folder)).code).toBe(0);
  expect(written(folder).crops).toEqual([[0, 0, 1, 1]]);
});

test('--min-rating takes the stars from the embedded XMP and says how many were left out', async () => {
  const folder = folderWith({ 'a.jpg': await rated(2), 'b.jpg': await rated(4), 'c.jpg': await picture() });
  const { code, out } = await selvedge('init', '--min-rating', '3', folder);
  expect(code).toBe(0);
  expect(written(folder).photos).toEqual(['b.jpg']);
  expect(out).toContain('left out: 1 photo with fewer stars: a.jpg\n');
  expect(out).toContain('left out: 1 photo without a rating: c.jpg\n');
});

test('what is left out is named, ten of each', async () => {
  const jpeg = await picture();
  const names = Array.from({ length: 12 }, (_, index) => `${index + 1}.jpg`);
  const unrated = Object.fromEntries(names.map((name) => [name, jpeg] as const));
  const folder = folderWith({ 'best.jpg': await rated(5), ...unrated });
  const { out } = await selvedge('init', '--min-rating', '3', folder);
  const told = names.slice(0, 10).join(', ');
  expect(out).toContain(`left out: 12 photos without a rating: ${told} and 2 more\n`);
});

test('links are left out, and said by where they lead', async () => {
  const elsewhere = folderWith({ 'x.jpg': await picture(), 'y.jpg': await picture(), 'folder/z.jpg': await picture() });
  const folder = folderWith({ 'a.jpg': await picture() });
  symlinkSync(join(elsewhere, 'x.jpg'), join(folder, 'x.jpg'));
  symlinkSync(join(elsewhere, 'y.jpg'), join(folder, 'y.jpg'));
  symlinkSync(join(folder, 'a.jpg'), join(folder, 'again.jpg'));
  symlinkSync(join(elsewhere, 'folder'), join(folder, 'folder'));
  symlinkSync(join(elsewhere, 'gone.jpg'), join(folder, 'gone.jpg'));
  symlinkSync(join(elsewhere, 'notes.txt'), join(folder, 'notes.txt'));
  const { code, out } = await selvedge('init', folder);
  expect(code).toBe(0);
  expect(written(folder).photos).toEqual(['a.jpg']);
  expect(out).toContain('left out: 2 links to files outside the folder (never read): x.jpg, y.jpg\n');
  expect(out).toContain('left out: 1 link to files inside the folder (counted once)');
  expect(out).toContain('left out: 1 link to folders (not followed)');
  expect(out).toContain('left out: 1 link that leads nowhere');
  const onlyLinks = folderWith({});
  symlinkSync(join(elsewhere, 'x.jpg'), join(onlyLinks, 'x.jpg'));
  expect((await selvedge('init', onlyLinks)).err).toContain('Links are not followed (1 here)');
});

test.each(['0', '6', '-1', '2.5', 'three'])('--min-rating %s is a bad call', async (stars) => {
  const { code, err } = await selvedge('init', '--min-rating', stars, folderWith({ 'a.jpg': await picture() }));
  expect(code).toBe(2);
  expect(err).toContain(`--min-rating takes a whole number from 1 to 5, not "${stars}".`);
});

test('a place that cannot be written: nothing was there, so nothing is "as it was"', async () => {
  await expect(writeTextFile(join(folderWith({}), 'gone', 'crops.yaml'), 'x')).rejects.toThrow('Nothing was written.');
});

test('a manifest that is there stays as it is', async () => {
  const folder = folderWith({ 'a.jpg': await picture(), 'crops.yaml': 'mine' });
  const { code, err } = await selvedge('init', folder);
  expect(code).toBe(2);
  expect(err).toContain('stays as it is');
  expect(readFileSync(join(folder, 'crops.yaml'), 'utf8')).toBe('mine');
});

test.each([
  ['a folder without pictures', {}, 'has no photos'],
  ['only lower ratings', { 'a.jpg': 'not even a picture' }, 'nothing was written'],
])('%s is exit 2', async (_, files: Record<string, string>, says) => {
  const folder = folderWith(files);
  const { code, err } = await selvedge('init', '--min-rating', '1', folder);
  expect(code).toBe(2);
  expect(err).toContain(says);
});

test('the whole disk and the home folder are refused, however they are spelt; a folder in the home is not', async () => {
  const jpeg = await picture();
  const home = folderWith({ 'a.jpg': jpeg, 'shoot/b.jpg': jpeg });
  const link = join(folderWith({}), 'link');
  symlinkSync(home, link);
  vi.stubEnv(process.platform === 'win32' ? 'USERPROFILE' : 'HOME', home);
  for (const folder of [parse(home).root, home, join(home, 'shoot', '..'), link]) {
    const { code, err } = await selvedge('init', folder);
    expect(code).toBe(2);
    expect(err).toMatch(
      /is (the whole disk|your whole home folder)\. Name the folder with the photos of one shoot, such as /,
    );
  }
  expect(existsSync(join(home, 'crops.yaml'))).toBe(false);
  expect((await selvedge('init', join(home, 'shoot'))).code).toBe(0);
  vi.unstubAllEnvs();
});

test('no such folder is exit 2', async () => {
  expect(await selvedge('init', join(folderWith({}), 'nowhere'))).toMatchObject({
    code: 2,
    err: expect.stringContaining('it is not there') as string,
  });
});
