import { spawn } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { beforeAll, expect, test, vi } from 'vitest';
import { formatPeopleLine, parsePeopleFile, type PeopleFile } from '../../src/people/people-file.ts';
import { digestsIn, folderWith, HEAD, picture, selvedge } from './workspace.ts';

const PROJECT = join(import.meta.dirname, '../..');
const PROOFS = join(PROJECT, 'sample-workspace/harbour/proofs');

// Real models on a machine that may be busy.
vi.setConfig({ testTimeout: 240_000 });

beforeAll(() => {
  for (const built of ['dist/selvedge.js', 'dist/workroom.js']) {
    if (!existsSync(join(PROJECT, built))) throw new Error(`${built} is missing: run npm run build first.`);
  }
});

function proof(name: string): Buffer {
  return readFileSync(join(PROOFS, name));
}

function people(folder: string): PeopleFile {
  return parsePeopleFile(readFileSync(join(folder, 'crops.people.jsonl'), 'utf8'));
}

test('measures with the real models, once; keeps ids and people corrected by hand; photos stay as they are', async () => {
  const folder = folderWith({
    'crops.yaml': `${HEAD}  - photo: one.jpg\n  - photo: one.jpg\n  - photo: two.jpg\n  - photo: text.jpg\n  - photo: gone.jpg\n`,
    'one.jpg': proof('boardwalk-01.jpg'),
    'two.jpg': proof('boardwalk-04.jpg'),
    'text.jpg': 'a shopping list',
  });
  const photos = digestsIn(folder, /\.jpg$/);
  const path = join(folder, 'crops.yaml');
  const first = await selvedge('measure', path);
  expect(first.code).toBe(1);
  expect(first.out).toContain('2 photos measured, 0 unchanged, 2 could not be read');
  expect(first.out).toContain('text.jpg: The file is not a picture');
  expect(first.out).toContain('gone.jpg is not in');
  const file = people(folder);
  expect([...file.photos.keys()]).toEqual(['one.jpg', 'two.jpg']);
  expect([...file.photos.values()].map((photo) => photo.people.map(({ id }) => id))).toEqual([[1], [1, 2]]);
  const two = file.photos.get('two.jpg')!;
  expect(two.digest).toBe(`sha256:${photos['two.jpg']!}`);
  expect(two.by).toMatch(/^selvedge \d.+MIT/);

  // Somebody corrects the second person; then the photo changes, so that it is measured again.
  const corrected = { ...two.people[1]!, source: 'hand' as const, points: { nose: { x: 0.6, y: 0.2, confidence: 1 } } };
  const line = formatPeopleLine({ ...two, people: [{ ...two.people[0]!, id: 5 }, corrected], digest: 'sha256:old' });
  writeFileSync(join(folder, 'crops.people.jsonl'), `${file.lines.get('one.jpg')!}\n${line}\nnot JSON\n`);
  const second = await selvedge('measure', '--workers', '1', path);
  expect(second.out).toContain('1 photo measured, 1 unchanged, 2 could not be read');
  const again = people(folder);
  expect(again.photos.get('two.jpg')!.people.map(({ id, source }) => [id, source])).toEqual([
    [2, 'hand'],
    [5, 'model'],
  ]);
  expect(again.photos.get('two.jpg')!.people[0]).toEqual(corrected);
  expect(again.lines.get('one.jpg')).toBe(file.lines.get('one.jpg'));
  expect(again.unreadLines).toEqual(['not JSON']);

  const third = await selvedge('measure', '--format', 'json', path);
  expect(third.out.split('\n').filter((text) => text !== '')).toHaveLength(2);
  expect(digestsIn(folder, /\.jpg$/)).toEqual(photos);
});

test('an interrupt keeps what was measured and the next run goes on from there', async () => {
  const names = ['boardwalk-01', 'boardwalk-02', 'boardwalk-03', 'boardwalk-06', 'studio-01', 'studio-03'];
  const files = Object.fromEntries(names.map((name) => [`${name}.jpg`, proof(`${name}.jpg`)]));
  const folder = folderWith({
    ...files,
    'crops.yaml': HEAD + names.map((name) => `  - photo: ${name}.jpg\n`).join(''),
  });
  const path = join(folder, 'crops.yaml');
  const child = spawn(process.execPath, [join(PROJECT, 'dist/selvedge.js'), 'measure', '--workers', '1', path]);
  const ended = new Promise((resolve) => child.once('exit', resolve));
  while (!existsSync(join(folder, 'crops.people.jsonl')) && child.exitCode === null) await sleep(50);
  child.kill('SIGINT');
  expect(await ended).toBe(130);
  const kept = people(folder).photos.size;
  expect(kept).toBeGreaterThan(0);
  expect(kept).toBeLessThan(names.length);
  const { code, out } = await selvedge('measure', path);
  expect(code).toBe(0);
  expect(out).toContain(`${names.length - kept} photos measured, ${kept} unchanged`.replace('1 photos', '1 photo'));
});

test('nothing to measure starts no process and is clean', async () => {
  const folder = folderWith({
    'crops.yaml': `${HEAD}  - photo: a.jpg\n`,
    'a.jpg': await picture(),
    'crops.people.jsonl': '{"photo":"a.jpg","size":[40,60],"people":[]}\n',
  });
  const before = digestsIn(folder);
  expect(await selvedge('measure', join(folder, 'crops.yaml'))).toMatchObject({ code: 0, err: '' });
  expect(digestsIn(folder)).toEqual(before);
  expect((await selvedge('measure', '--workers', '0', join(folder, 'crops.yaml'))).code).toBe(2);
});
