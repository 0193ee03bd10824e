import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test, vi } from 'vitest';
import { digestsIn, folderWith, HEAD, picture } from '../cli/workspace.ts';
import { runChild } from './support/child.ts';

/*
 * Several machines that share a folder, as processes that run at the same time on this one: what they leave is what one run
 * leaves. Outside truth: the one run.
 */

const PROOFS = join(import.meta.dirname, '../../sample-workspace/harbour/proofs');

// Real models on a machine that may be busy.
vi.setConfig({ testTimeout: 240_000 });

/** Runs a command as so many shards at once. */
async function atOnce(of: number, argv: readonly string[]): Promise<string> {
  const shards = Array.from({ length: of }, (_, place) => runChild([...argv, '--shard', `${place + 1}/${of}`]));
  const ends = await Promise.all(shards);
  const said = ends.map((end) => end.said).join('');
  expect([ends.map(({ code }) => code), said]).toEqual([Array(of).fill(0), said]);
  return said;
}

test('two shards of measure at once write the people file that one run writes', async () => {
  const names = ['boardwalk-01', 'boardwalk-04', 'studio-01', 'studio-03', 'boardwalk-06'].map((name) => `${name}.jpg`);
  const photos = Object.fromEntries(
    await Promise.all(
      names.map(
        async (name) => [name, await sharp(join(PROOFS, name)).resize({ height: 160 }).jpeg().toBuffer()] as const,
      ),
    ),
  );
  // A photo that stands in both halves is measured once.
  const entries = [...names, names[0]!].map((name) => `  - photo: ${name}\n`).join('');
  const session = (): string => folderWith({ ...photos, 'crops.yaml': HEAD + entries });
  const measure = (folder: string): string[] => ['measure', '--workers', '1', folder];
  const [whole, shared] = [session(), session()];
  expect((await runChild(measure(whole))).code).toBe(0);
  const said = await atOnce(2, measure(shared));
  expect(said).toContain('2 photos measured');
  expect(said).toContain('3 photos measured');
  const read = (folder: string): string => readFileSync(join(folder, 'crops.people.jsonl'), 'utf8');
  expect(read(whole).trimEnd().split('\n')).toHaveLength(names.length);
  expect(read(shared)).toBe(read(whole));
  expect(Object.keys(digestsIn(shared))).toEqual(Object.keys(digestsIn(whole)));
});

test('two shards of measure that print lines print the people file of one run', async () => {
  const people = ['a.jpg', 'b.jpg', 'c.jpg'].map((photo) => `{"photo":"${photo}","size":[40,60],"people":[]}\n`);
  const [a, b, c] = [await picture(), await picture(), await picture()];
  const entries = ['a.jpg', 'b.jpg', 'c.jpg'].map((photo) => `  - photo: ${photo}\n`).join('');
  const folder = folderWith({ 'a.jpg': a, 'b.jpg': b, 'c.jpg': c, 'crops.yaml': HEAD + entries, 'crops.people.jsonl': people.join('') }); // prettier-ignore
  const shards = ['1/2', '2/2'].map((shard) => runChild(['measure', folder, '--format', 'json', '--shard', shard]));
  expect((await Promise.all(shards)).map(({ said }) => said)).toEqual([people[0], `${people[1]!}${people[2]!}`]);
});

test('three shards of render at once make the files that one run makes, and a second run has nothing left to do', async () => {
  const names = Array.from({ length: 8 }, (_, index) => `p${index}.jpg`);
  const photos = Object.fromEntries(
    await Promise.all(
      names.map(async (name, index) => {
        const background = { r: 30 * index, g: 90, b: 200 };
        const photo = sharp({ create: { width: 300, height: 200, channels: 3, background } });
        return [name, await photo.jpeg().toBuffer()] as const;
      }),
    ),
  );
  // Names that two frames of different shards would have in common are told apart as in one run.
  const entries = [...names, names[0]!].map((name) => `  - photo: ${name}\n`).join('');
  const text = `selvedge: 1\ndeliver:\n  web: { aspect: original, long: 120px }\n  square: { aspect: "1:1", long: 90px }\nframes:\n${entries}`;
  const folder = folderWith({ ...photos, 'crops.yaml': text });
  const [whole, shared] = [join(folderWith({}), 'whole'), join(folderWith({}), 'shared')];
  expect((await runChild(['render', folder, '--to', whole])).code).toBe(0);
  await atOnce(3, ['render', folder, '--to', shared]);
  expect(Object.keys(digestsIn(whole, /\.jpg$/))).toHaveLength(18);
  expect(digestsIn(shared, /\.jpg$/)).toEqual(digestsIn(whole, /\.jpg$/));
  expect((await runChild(['render', folder, '--to', shared])).said).toContain('0 files written');
});
