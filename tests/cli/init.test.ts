import { readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { parseManifest } from '../../src/manifest/parse.ts';
import { RULE_CATALOGUE } from '../../src/session/file-rules.ts';
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

test('one frame per picture in the order of a contact sheet; raw beside a picture counts once; the rest stays out', async () => {
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
  expect(out).toContain('left out: 1 raw file beside');
  expect(out).toContain('backslash');
  const after = digestsIn(folder);
  delete after['crops.yaml'];
  expect(after).toEqual(before);
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
  expect(out).toContain('left out: 1 picture with fewer stars');
  expect(out).toContain('left out: 1 picture without a rating');
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
  expect(out).toContain('left out: 2 links to files outside the folder (never read)');
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
  ['a folder without pictures', {}, 'has no pictures'],
  ['only lower ratings', { 'a.jpg': 'not even a picture' }, 'nothing was written'],
])('%s is exit 2', async (_, files: Record<string, string>, says) => {
  const folder = folderWith(files);
  const { code, err } = await selvedge('init', '--min-rating', '1', folder);
  expect(code).toBe(2);
  expect(err).toContain(says);
});

test('no such folder is exit 2', async () => {
  expect(await selvedge('init', join(folderWith({}), 'nowhere'))).toMatchObject({
    code: 2,
    err: expect.stringContaining('it is not there') as string,
  });
});
