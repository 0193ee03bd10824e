import { readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { CLEAN, digestsIn, folderWith, HEAD, KNEES, peopleFile, selvedge } from '../cli/workspace.ts';
import { haveEnded, runChild, type Moment } from './support/child.ts';

const PROOFS = join(import.meta.dirname, '../../sample-workspace/harbour/proofs');
const MOMENTS = 20;

/** Written beside a file before it takes the file's place: its name and digits. */
const HALF_WRITTEN = /\.\d+$/;

/** Half of the moments by the clock, spread over a whole run; half when something is written. */
function moments(folder: string, wholeRun: number): (index: number) => Moment {
  return (index) =>
    index % 2 === 0
      ? { milliseconds: (wholeRun * (index + 1)) / MOMENTS }
      : { folder, name: HALF_WRITTEN, nth: 1 + Math.floor(index / 2) };
}

/** As if the next run came later: what lies there for a minute belongs to nobody. */
function age(folder: string): void {
  for (const name of readdirSync(folder)) if (HALF_WRITTEN.test(name)) utimesSync(join(folder, name), 0, 0);
}

describe(`measure, killed at ${MOMENTS} moments`, () => {
  const names = ['boardwalk-01.jpg', 'studio-01.jpg'];
  /** Long enough that writing it takes time. */
  const others = Array.from({ length: 400 }, (_, index) => peopleFile({ [`other-${index}.jpg`]: 'standing' })).join('');
  const manifest = `${HEAD}# the client's own words\n${names.map((name) => `  - photo: ${name}\n`).join('')}`;
  let photos: Readonly<Record<string, Buffer>> = {};
  let expected = '';
  let wholeRun = 0;

  const session = (): string => folderWith({ ...photos, 'crops.yaml': manifest, 'crops.people.jsonl': others });
  const measure = (folder: string): string[] => ['measure', '--workers', '1', join(folder, 'crops.yaml')];

  beforeAll(async () => {
    photos = Object.fromEntries(
      await Promise.all(
        names.map(
          async (name) => [name, await sharp(join(PROOFS, name)).resize({ height: 120 }).jpeg().toBuffer()] as const,
        ),
      ),
    );
    const folder = session();
    const { code, milliseconds } = await runChild(measure(folder));
    expect(code).toBe(0);
    wholeRun = milliseconds;
    expected = readFileSync(join(folder, 'crops.people.jsonl'), 'utf8');
    expect(expected.split('\n')).toHaveLength(names.length + 400 + 1);
  });

  test.each(Array.from({ length: MOMENTS }, (_, index) => index))('moment %i', async (index) => {
    const folder = session();
    const originals = digestsIn(folder, /\.(jpg|yaml)$/);
    const { children } = await runChild(measure(folder), moments(folder, wholeRun)(index));
    const left = readFileSync(join(folder, 'crops.people.jsonl'), 'utf8');
    for (const line of left.split('\n').slice(0, -1)) expect(() => JSON.parse(line) as unknown).not.toThrow();
    for (const line of others.split('\n')) expect(left).toContain(line);
    expect(await haveEnded(children, 60)).toBe(true);

    age(folder);
    expect((await runChild(measure(folder))).code).toBe(0);
    expect(readFileSync(join(folder, 'crops.people.jsonl'), 'utf8')).toBe(expected);
    expect(readdirSync(folder).sort()).toEqual([...names, 'crops.people.jsonl', 'crops.yaml'].sort());
    expect(digestsIn(folder, /\.(jpg|yaml)$/)).toEqual(originals);
  });
});

describe(`fix, killed at ${MOMENTS} moments`, () => {
  const names = Array.from({ length: 20 }, (_, index) => `photo-${index}.jpg`);
  const frame = (name: string, index: number): string =>
    `  # frame ${index}, as the client wants it\n  - photo: ${name}\n    crop: ${index % 3 === 0 ? CLEAN : KNEES} # note ${index}\n`;
  const manifest = HEAD + names.map(frame).join('') + `# ${'the end '.repeat(100_000)}\n`;
  const people = peopleFile(Object.fromEntries(names.map((name) => [name, 'standing'] as const)));
  let expected = '';
  let wholeRun = 0;

  const session = (): string => folderWith({ 'crops.yaml': manifest, 'crops.people.jsonl': people });

  beforeAll(async () => {
    const folder = session();
    const { milliseconds } = await runChild(['fix', join(folder, 'crops.yaml')]);
    wholeRun = milliseconds;
    expected = readFileSync(join(folder, 'crops.yaml'), 'utf8');
    expect(expected).not.toBe(manifest);
  });

  test.each(Array.from({ length: MOMENTS }, (_, index) => index))('moment %i', async (index) => {
    const folder = session();
    await runChild(['fix', join(folder, 'crops.yaml')], moments(folder, wholeRun)(index));
    expect([manifest, expected]).toContain(readFileSync(join(folder, 'crops.yaml'), 'utf8'));

    age(folder);
    await selvedge('fix', join(folder, 'crops.yaml'));
    expect(readFileSync(join(folder, 'crops.yaml'), 'utf8')).toBe(expected);
    expect(readFileSync(join(folder, 'crops.people.jsonl'), 'utf8')).toBe(people);
    expect(readdirSync(folder).sort()).toEqual(['crops.people.jsonl', 'crops.yaml']);
  });
});

test('what a killed run left is cleared away later, and nothing else', async () => {
  const others = {
    'crops.yaml.bak': 'a',
    'crops.yaml.2024-01': 'b',
    'crops.yaml.12345678901': 'c',
    'other.yaml.123': 'd',
  };
  const folder = folderWith({
    ...others,
    'crops.yaml': `${HEAD}  - photo: a.jpg\n    crop: ${CLEAN}\n`,
    'crops.people.jsonl': peopleFile({ 'a.jpg': 'standing' }),
    'crops.yaml.123456': 'old',
    'crops.yaml.654321': 'somebody writes it now',
  });
  utimesSync(join(folder, 'crops.yaml.123456'), 0, 0);
  for (const name of Object.keys(others)) utimesSync(join(folder, name), 0, 0);
  writeFileSync(join(folder, 'crops.yaml.654321'), 'somebody writes it now');
  expect((await selvedge('fix', '--dry-run', join(folder, 'crops.yaml'))).code).toBe(0);
  expect(readdirSync(folder)).toContain('crops.yaml.123456');
  expect((await selvedge('fix', join(folder, 'crops.yaml'))).code).toBe(0);
  expect(readdirSync(folder).sort()).toEqual(
    [...Object.keys(others), 'crops.yaml', 'crops.people.jsonl', 'crops.yaml.654321'].sort(),
  );
});
