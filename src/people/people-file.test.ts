import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import fc from 'fast-check';
import { EMPTY_PEOPLE_FILE, formatPeopleFile, formatPeopleLine, parsePeopleFile } from './people-file.ts';
import type { Person, PhotoPeople } from './person.ts';
import { POINT_NAMES } from './points.ts';

const PERSON = '{"id":1,"source":"model","box":[0.3,0.1,0.3,0.8],"points":{"nose":[0.45,0.2,0.98]}}';

function line(photo: string, people = PERSON, more = ''): string {
  return `{"photo":"${photo}","size":[4000,6000]${more},"people":[${people}]}`;
}

test('reads what DESIGN shows', () => {
  const text =
    '{"photo":"0142.jpg","size":[4000,6000],"digest":"sha256:ab","people":[{"id":1,"source":"model",' +
    '"box":[0.3,0.1,0.3,0.8],"points":{"nose":[0.45,0.2,0.98],"left_ankle":[0.41,0.9,0.83]},' +
    '"head_top":[0.45,0.12,0.9],"outline":[[0.44,0.12],[0.47,0.13]]}],"tilt":{"degrees":-1.3,"confidence":0.8},' +
    '"horizon":{"y":0.41,"confidence":0.7},"by":"somebody 1.0"}\n';
  const { photos, problems } = parsePeopleFile(text);
  expect(problems).toEqual([]);
  expect(photos.get('0142.jpg')).toEqual({
    photo: '0142.jpg',
    size: { width: 4000, height: 6000 },
    digest: 'sha256:ab',
    people: [
      {
        id: 1,
        source: 'model',
        box: [0.3, 0.1, 0.3, 0.8],
        points: {
          nose: { x: 0.45, y: 0.2, confidence: 0.98 },
          left_ankle: { x: 0.41, y: 0.9, confidence: 0.83 },
        },
        headTop: { x: 0.45, y: 0.12, confidence: 0.9 },
        outline: [
          { x: 0.44, y: 0.12 },
          { x: 0.47, y: 0.13 },
        ],
      },
    ],
    tilt: { degrees: -1.3, confidence: 0.8 },
    horizon: { y: 0.41, confidence: 0.7 },
    by: 'somebody 1.0',
  });
});

test('gaps in an outline are read and written; without them a line stays as it was', () => {
  const gaps = '[[[0.4,0.3],[0.42,0.3],[0.41,0.35]]]';
  const written = line('a.jpg', PERSON.replace('}}', `},"outline":[[0.3,0.1],[0.6,0.1],[0.5,0.9]],"gaps":${gaps}}`));
  const { photos, problems } = parsePeopleFile(written);
  expect(problems).toEqual([]);
  expect(photos.get('a.jpg')!.people[0]!.gaps).toEqual([
    [
      { x: 0.4, y: 0.3 },
      { x: 0.42, y: 0.3 },
      { x: 0.41, y: 0.35 },
    ],
  ]);
  expect(formatPeopleLine(photos.get('a.jpg')!)).toContain(`"gaps":${gaps}`);
  expect(formatPeopleLine(parsePeopleFile(line('a.jpg')).photos.get('a.jpg')!)).not.toContain('gaps');
});

test.each([
  ['gaps that are no lines', line('a.jpg', PERSON.replace('}}', '},"gaps":[0.4]}')), 'gaps, 1'],
  ['no JSON at all', '<<<<<<< ours', 'JSON'],
  ['a list', '[1,2]', 'map'],
  ['no photo', '{"size":[1,1],"people":[]}', 'photo'],
  ['no people', '{"photo":"a.jpg","size":[1,1]}', 'people'],
  ['no size', '{"photo":"a.jpg","people":[]}', 'size'],
  ['a size of text', '{"photo":"a.jpg","size":["4000","6000"],"people":[]}', 'size'],
  ['a size of nothing', '{"photo":"a.jpg","size":[0,10],"people":[]}', 'size'],
  ['an id of nothing', line('a.jpg', PERSON.replace('"id":1', '"id":0')), 'person 1: id'],
  ['one id twice', line('a.jpg', `${PERSON},${PERSON}`), 'two people have the id 1'],
  ['another source', line('a.jpg', PERSON.replace('model', 'guess')), 'source'],
  ['a box in pixels', line('a.jpg', PERSON.replace('[0.3,0.1,0.3,0.8]', '[1200,600,1200,4800]')), 'box'],
  ['a box without height', line('a.jpg', PERSON.replace('0.8]', '0]')), 'box'],
  ['a point without confidence', line('a.jpg', PERSON.replace(',0.98', '')), 'nose'],
  ['a confidence over 1', line('a.jpg', PERSON.replace('0.98', '98')), 'confidence'],
  ['a size beyond every photo', '{"photo":"a.jpg","size":[1e300,1e300],"people":[]}', '400 million pixels'],
  ['a width too small to be one', line('a.jpg', PERSON.replace('0.3,0.8]', '1e-320,0.8]')), 'box'],
  ['an id beyond whole numbers', line('a.jpg', PERSON.replace('"id":1', '"id":1e300')), 'person 1: id'],
  ['a crowd', line('a.jpg', Array.from({ length: 101 }, () => PERSON).join(',')), '101 people'],
  [
    'an outline without end',
    line('a.jpg', PERSON.replace('"id":1', `"outline":[${'[0,0],'.repeat(1000)}[0,0]],"id":1`)),
    '1001 points',
  ],
  ['a line without end', line('a.jpg', PERSON, `,"by":"${'x'.repeat(2_000_000)}"`), 'characters'],
  ['a tilt of a half-turn', line('a.jpg', PERSON, ',"tilt":{"degrees":180,"confidence":1}'), '−90 to 90'],
  ['a tilt of text', line('a.jpg', PERSON, ',"tilt":{"degrees":"1"}'), 'tilt'],
])('%s is a problem with its line, stops no other line and is kept', (_, bad, says) => {
  const file = parsePeopleFile(`${line('first.jpg')}\n${bad}\n${line('last.jpg')}\n`);
  expect(file.problems).toHaveLength(1);
  expect(file.problems[0]).toMatchObject({ line: 2, severity: 'error' });
  expect(file.problems[0]!.message).toContain(says);
  expect([...file.photos.keys()]).toEqual(['first.jpg', 'last.jpg']);
  expect(formatPeopleFile(file)).toContain(bad);
});

test('a file that is broken all through is told in few words, and kept', () => {
  const file = parsePeopleFile('<<<<<<< ours\n'.repeat(100_010));
  expect(file.problems.map(({ line: number }) => number)).toEqual([
    100_001,
    ...Array.from({ length: 21 }, (_, at) => at + 1),
  ]);
  expect(file.problems[0]!.message).toContain('100000 lines are the most');
  expect(file.problems.at(-1)!.message).toContain('99980 more lines');
  expect(file.unreadLines).toHaveLength(100_010);
});

test('points of other names are left out with a warning; places beyond the frame are fine', () => {
  const points = '{"nose":[-0.2,1.3,0.5],"third_eye":[0.5,0.5,1],"__proto__":[0,0,1]}';
  const file = parsePeopleFile(line('a.jpg', PERSON.replace(/\{"nose".*?\}/, points)));
  expect(file.problems).toMatchObject([{ line: 1, severity: 'warning' }]);
  expect(file.problems[0]!.message).toContain('third_eye');
  expect(file.photos.get('a.jpg')?.people[0]?.points).toEqual({ nose: { x: -0.2, y: 1.3, confidence: 0.5 } });
});

test('of two lines for a photo the hand beats the model, else the last wins', () => {
  const byHand = PERSON.replace('model', 'hand');
  const other = PERSON.replace('"id":1', '"id":7');
  const idOf = (text: string): unknown[] =>
    parsePeopleFile(text)
      .photos.get('a.jpg')!
      .people.map(({ id }) => id);
  expect(idOf(`${line('a.jpg')}\n${line('a.jpg', other)}`)).toEqual([7]);
  expect(idOf(`${line('a.jpg', byHand)}\n${line('a.jpg', other)}`)).toEqual([1]);
  expect(idOf(`${line('a.jpg', other)}\r\n\r\n${line('a.jpg', byHand)}\r\n`)).toEqual([1]);
});

test('writing sorts by photo and keeps the lines that did not change, character by character', () => {
  const odd = '{ "photo": "b.jpg", "people": [], "size": [10, 20], "x-mine": 1 }';
  const file = parsePeopleFile(`\uFEFF${odd}\n`);
  const measured: PhotoPeople = { photo: 'a.jpg', size: { width: 3, height: 4 }, people: [] };
  expect(formatPeopleFile(file, [measured])).toBe(`{"photo":"a.jpg","size":[3,4],"people":[]}\n${odd}\n`);
  expect(formatPeopleFile(EMPTY_PEOPLE_FILE)).toBe('');
});

test('what is written reads back the same, to four decimals', () => {
  const fraction = fc.integer({ min: -20_000, max: 20_000 }).map((ticks) => ticks / 10_000);
  const size = fc.integer({ min: 1, max: 10_000 }).map((ticks) => ticks / 10_000);
  const point = fc.record({ x: fraction, y: fraction, confidence: size });
  const person: fc.Arbitrary<Person> = fc.record(
    {
      id: fc.integer({ min: 1, max: 1000 }),
      source: fc.constantFrom('model' as const, 'hand' as const),
      box: fc.tuple(fraction, fraction, size, size),
      points: fc.dictionary(fc.constantFrom(...POINT_NAMES), point, { noNullPrototype: true }),
      headTop: point,
      chin: point,
      outline: fc.array(fc.record({ x: fraction, y: fraction }), { maxLength: 8 }),
    },
    { requiredKeys: ['id', 'source', 'box', 'points'] },
  );
  const photo: fc.Arbitrary<PhotoPeople> = fc.record({
    photo: fc.string({ minLength: 1, unit: 'grapheme' }),
    size: fc.record({ width: fc.integer({ min: 1, max: 19_999 }), height: fc.integer({ min: 1, max: 19_999 }) }),
    people: fc.uniqueArray(person, { maxLength: 3, selector: ({ id }) => id }),
  });
  fc.assert(
    fc.property(photo, (people) => {
      const file = parsePeopleFile(formatPeopleLine(people));
      expect(file.problems).toEqual([]);
      const read = file.photos.get(people.photo)!;
      expect(formatPeopleLine(read)).toBe(formatPeopleLine(people));
      expect(read.people.length).toBe(people.people.length);
    }),
  );
});

test('the example of docs/people-file.md has every key, and is read and written as it stands there', () => {
  const page = readFileSync(join(import.meta.dirname, '../../docs/people-file.md'), 'utf8');
  const example = /```json\n(.*)\n```/.exec(page)![1]!;
  const { photos, problems } = parsePeopleFile(example);
  expect(problems).toEqual([]);
  expect(formatPeopleLine(photos.get('0142.jpg')!)).toBe(example);
  const [person] = photos.get('0142.jpg')!.people;
  for (const key of Object.keys(JSON.parse(example) as object)) expect(page).toContain(`\`${key}\``);
  expect(person).toHaveProperty('gaps');
});
