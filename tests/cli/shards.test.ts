import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import {
  checkJson,
  CLEAN,
  folderWith,
  HEAD,
  KNEES,
  measuredSession,
  peopleFile,
  picture,
  selvedge,
} from './workspace.ts';

const NAMES = ['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((name) => `${name}.jpg`);

function manifest(): string {
  const crops = [CLEAN, KNEES];
  return HEAD + NAMES.map((name, at) => `  - photo: ${name}\n    crop: ${crops[at % 2]!}\n`).join('') + '  - phto: x\n';
}

/** What each shard prints, written to files. */
async function shards(of: number, paths: readonly string[]): Promise<string[]> {
  const folder = folderWith({});
  const files: string[] = [];
  for (let number = 1; number <= of; number++) {
    const { out } = await selvedge('check', '--format', 'json', '--shard', `${number}/${of}`, ...paths);
    const file = join(folder, `shard-${number}.json`);
    writeFileSync(file, out);
    files.push(file);
  }
  return files;
}

test.each([1, 2, 3, 7, 9])('%i shards merge to what one check prints, byte for byte, in any order', async (of) => {
  const paths = [measuredSession(manifest(), NAMES), measuredSession(`${HEAD}  - photo: a.jpg\n    crop: ${KNEES}\n`)];
  const whole = await selvedge('check', '--format', 'json', ...paths);
  const files = await shards(of, paths);
  const merged = await selvedge('merge', ...files.reverse());
  expect(merged.out).toBe(whole.out);
  expect(merged.code).toBe(whole.code);
});

test('a shard whose photos happen to be absent is judged as in the whole session', async () => {
  const people = peopleFile({ 'a.jpg': 'standing', 'b.jpg': 'standing' });
  const text = `${HEAD}  - photo: a.jpg\n    crop: ${CLEAN}\n  - photo: b.jpg\n    crop: ${CLEAN}\n`;
  const folder = folderWith({ 'crops.yaml': text, 'crops.people.jsonl': people, 'a.jpg': await picture() });
  const { report } = await checkJson('--shard', '2/2', folder);
  expect(report.manifests[0]!.findings).toEqual([]);
  expect(report.manifests[0]!.frames.map(({ findings }) => findings.map(({ rule }) => rule))).toEqual([
    ['photo-missing'],
  ]);
});

test('merge says what is missing, what stands twice, and what is no shard', async () => {
  const files = await shards(3, [measuredSession(manifest(), NAMES)]);
  const others = await shards(3, [measuredSession(manifest(), NAMES)]);
  const plain = join(folderWith({ 'x.json': '{"selvedge":1}', 'y.json': 'no' }), 'x.json');
  const cases: [string[], string][] = [
    [files.slice(0, 2), 'Shard 3/3 is missing'],
    [[...files, files[0]!], 'Shard 1/3 was given more than once'],
    [[files[0]!, others[1]!, files[2]!], 'is a shard of another check'],
    [[plain], 'x.json is no shard of a check'],
    [[plain.replace('x.json', 'y.json')], 'y.json is not JSON'],
  ];
  for (const [given, says] of cases) {
    const { code, out, err } = await selvedge('merge', ...given);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(says);
  }
});

test.each(['0/2', '3/2', '1', 'a/b', '1/0', '-1/2', '1/2/3'])('--shard %s is a bad call', async (shard) => {
  const { code, err } = await selvedge('check', '--shard', shard, measuredSession(manifest(), NAMES));
  expect(code).toBe(2);
  expect(err).toContain('--shard takes');
});
