import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { decodePhoto } from '../../src/photos/decode.ts';
import { parsePeopleFile, type PeopleFile } from '../../src/people/people-file.ts';
import type { Person } from '../../src/people/person.ts';
import { digestsIn, folderWith, HEAD, selvedge, type Answer } from '../cli/workspace.ts';
import { PHOTO_ROWS, small } from './rows/photos.ts';
import { foundPlaces } from '../../src/people/places.ts';

/** Every photo of the table in one session; measured and checked once, with the real models. */
let folder = '';
let measured: Answer;
let checkedFirst: Answer;
let checked: Answer;
let people: PeopleFile;
let before: Readonly<Record<string, string>>;

const isKept = /^(?!five-gigabytes|folder|pipe).*\.(jpg|png|tiff|webp|avif|nef|svg|gif|yaml)$/;

beforeAll(async () => {
  const frames = PHOTO_ROWS.map(({ file }) => `  - photo: ${JSON.stringify(file)} # keep me\n`).join('');
  folder = folderWith({ 'crops.yaml': HEAD + frames });
  for (const { file, make } of PHOTO_ROWS) {
    const content = await make(join(folder, file));
    if (content !== undefined) writeFileSync(join(folder, file), content);
  }
  before = digestsIn(folder, isKept);
  checkedFirst = await selvedge('check', join(folder, 'crops.yaml'));
  measured = await selvedge('measure', '--workers', '1', join(folder, 'crops.yaml'));
  checked = await selvedge('check', join(folder, 'crops.yaml'));
  people = parsePeopleFile(readFileSync(join(folder, 'crops.people.jsonl'), 'utf8'));
});

describe('photos as cards, copies and strangers leave them', () => {
  test.each(PHOTO_ROWS.map((row, index) => [row.file, row, index] as const))('%s', (file, row, index) => {
    const shown = file.replace('\u009b', '\\u009b');
    const line = HEAD.split('\n').length + index;
    const told = checked.out.split('\n').filter((words) => words.includes(`crops.yaml:${line}:12 `));
    const failed = measured.out.split('\n').filter((words) => words.startsWith(shown));
    if (row.measure === undefined) {
      expect(failed).toEqual([]);
      expect(people.photos.has(file)).toBe(true);
      expect(told.filter((words) => /\[(photo-missing|not-measured|manifest)\]/.test(words))).toEqual([]);
    } else {
      expect(failed).toHaveLength(1);
      expect(failed[0]).toContain(row.measure);
      expect(people.photos.has(file)).toBe(false);
      expect(told).toHaveLength(1);
      expect(told[0]).toContain(row.check);
      expect(told[0]).toContain(shown);
    }
  });

  test('of what only measuring can see check first sends to measure; what measuring found it then says itself', () => {
    const seen = PHOTO_ROWS.filter(({ isSeenByMeasure }) => isSeenByMeasure);
    expect(seen.length).toBeGreaterThan(0);
    for (const { file } of seen) expect(checkedFirst.out).toContain(`Nobody has measured the people in ${file} yet.`);
  });

  test('both commands say so by their exit code, no photo and no manifest is changed, nothing is a trace', () => {
    const sound = PHOTO_ROWS.filter(({ measure }) => measure === undefined).length;
    expect(measured).toMatchObject({ code: 1, err: '' });
    expect(measured.out).toContain(
      `${sound} photos measured, 0 unchanged, ${PHOTO_ROWS.length - sound} could not be read`,
    );
    expect(checked).toMatchObject({ code: 1, err: '' });
    expect(digestsIn(folder, isKept)).toEqual(before);
    expect(measured.out + checked.out).not.toMatch(/\n\s+at |Error:|[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
  });

  test.each([
    'sixteen-bits.png',
    'sixteen-bits.tiff',
    'cmyk.tiff',
    'webp-named.jpg',
    'progressive.jpg',
    'grey.jpg',
    'junk-behind.jpg',
  ])('the person in %s stands where the person in sound.jpg stands', (file) => {
    const [person] = people.photos.get(file)!.people;
    const [sound] = people.photos.get('sound.jpg')!.people;
    for (const at of [0, 1, 2, 3] as const) expect(Math.abs(person!.box[at] - sound!.box[at])).toBeLessThan(0.03);
  });
});

describe('the eight EXIF orientations', () => {
  let all: PeopleFile;
  let turned = '';

  beforeAll(async () => {
    const upright = await small().png().toBuffer();
    const files = Object.fromEntries(
      await Promise.all(
        [1, 2, 3, 4, 5, 6, 7, 8].map(async (value) => [`turned-${value}.png`, await stored(upright, value)] as const),
      ),
    );
    const frames = Object.keys(files).map((name) => `  - photo: ${name}\n`);
    turned = folderWith({ ...files, 'crops.yaml': HEAD + frames.join('') });
    expect((await selvedge('measure', '--workers', '1', join(turned, 'crops.yaml'))).code).toBe(0);
    all = parsePeopleFile(readFileSync(join(turned, 'crops.people.jsonl'), 'utf8'));
  });

  test.each([1, 2, 3, 4, 5, 6, 7, 8])('orientation %i gives the same people as an upright picture', async (value) => {
    const first = all.photos.get('turned-1.png')!;
    const other = all.photos.get(`turned-${value}.png`)!;
    expect(first.people).toHaveLength(1);
    expect(other.size).toEqual(first.size);
    expect(other.people).toHaveLength(1);
    expect(farthest(first.people[0]!, other.people[0]!)).toBeLessThanOrEqual(0.0001);
    const [pixels, same] = await Promise.all(
      [1, value].map(async (each) => (await decodePhoto(join(turned, `turned-${each}.png`), 1600)).pixels.data),
    );
    expect(Buffer.compare(pixels!, same!)).toBe(0);
  });
});

/** The picture as a camera would store it that is held so: bytes turned or mirrored, and the tag that says how. */
async function stored(upright: Buffer, orientation: number): Promise<Buffer> {
  // What brings it back, by value: 2 mirror, 3 half-turn, 4 flip, 5 transpose, 6 quarter-turn clockwise, 7 transverse,
  // 8 quarter-turn back. Mirrors and the half-turn undo themselves; 6 and 8 undo each other.
  const quarter = { 5: 90, 6: 270, 7: 270, 8: 90 }[orientation];
  let image = sharp(upright);
  if (orientation === 3) image = image.rotate(180);
  if (quarter !== undefined) image = image.rotate(quarter);
  let bytes = await image.png().toBuffer();
  if (orientation === 2 || orientation === 5 || orientation === 7) bytes = await sharp(bytes).flop().png().toBuffer();
  if (orientation === 4) bytes = await sharp(bytes).flip().png().toBuffer();
  return sharp(bytes).withMetadata({ orientation }).png().toBuffer();
}

function farthest(first: Person, second: Person): number {
  const numbers = (person: Person): number[] => [
    ...person.box,
    ...foundPlaces(person.points).flatMap(([, { x, y, confidence }]) => [x, y, confidence]),
    ...(person.outline ?? []).flatMap(({ x, y }) => [x, y]),
  ];
  const [one, other] = [numbers(first), numbers(second)];
  expect(other).toHaveLength(one.length);
  return Math.max(...one.map((value, index) => Math.abs(value - other[index]!)));
}
