import fc from 'fast-check';
import { expect, it } from 'vitest';
import { correctPeople, PLACES, placeOf } from './correct.ts';
import { mergeMeasured } from './merge.ts';
import { formatPeopleFile, parsePeopleFile } from './people-file.ts';
import { readPeopleLine } from './people-line.ts';
import { formatPeopleLine } from './people-file.ts';
import type { Person } from './person.ts';

const PERSON: Person = {
  id: 1,
  source: 'model',
  box: [0.3, 0.1, 0.3, 0.8],
  points: { nose: { x: 0.45, y: 0.2, confidence: 0.9 }, left_knee: { x: 0.4, y: 0.7, confidence: 0.5 } },
  outline: [{ x: 0.3, y: 0.1 }, { x: 0.6, y: 0.1 }, { x: 0.5, y: 0.9 }], // prettier-ignore
};
const OTHER: Person = { ...PERSON, id: 4, box: [0.6, 0.1, 0.3, 0.8] };
const PEOPLE = [PERSON, OTHER];
const share = fc.double({ min: -0.2, max: 1.2, noNaN: true });
const somewhere = fc.record({ x: share, y: share });
const place = fc.constantFrom(...PLACES);

it('moves one place of one person, who is known by hand from then on; the others are the same', () => {
  fc.assert(
    fc.property(place, somewhere, (name, at) => {
      const after = correctPeople(PEOPLE, { kind: 'place', person: 1, place: name, at })!;
      expect(after[1]).toBe(OTHER);
      expect(after[0]!.source).toBe('hand');
      expect(placeOf(after[0]!, name)).toEqual({ ...at, confidence: 1 });
      for (const untouched of PLACES.filter((each) => each !== name)) {
        expect(placeOf(after[0]!, untouched)).toEqual(placeOf(PERSON, untouched));
      }
      expect(after[0]!.outline).toBe(PERSON.outline);
    }),
  );
});

it('a box grows to what was placed outside it', () => {
  const [person] = correctPeople(PEOPLE, { kind: 'place', person: 1, place: 'left_wrist', at: { x: 0.1, y: 0.95 } })!;
  const [left, top, width, height] = person!.box;
  expect([left, top, left + width, top + height].map((side) => Number(side.toFixed(6)))).toEqual([0.1, 0.1, 0.6, 0.95]);
});

it('what cannot be seen is taken away', () => {
  const [person] = correctPeople(PEOPLE, { kind: 'unplace', person: 1, place: 'left_knee' })!;
  expect(person!.points).toEqual({ nose: PERSON.points.nose });
  expect(person!.source).toBe('hand');
});

it('a new person has the next free id and a box around a few places', () => {
  const places = {
    head_top: { x: 0.2, y: 0.1 },
    left_shoulder: { x: 0.3, y: 0.3 },
    right_shoulder: { x: 0.1, y: 0.3 },
  };
  const after = correctPeople(PEOPLE, { kind: 'add', places })!;
  expect(after.slice(0, 2)).toEqual(PEOPLE);
  expect(after[2]).toMatchObject({ id: 5, source: 'hand', headTop: { x: 0.2, y: 0.1, confidence: 1 } });
  const [left, top, width, height] = after[2]!.box;
  expect(left).toBeLessThan(0.1);
  expect(left + width).toBeGreaterThan(0.3);
  expect(top).toBeCloseTo(0.1);
  expect(top + height).toBeGreaterThan(0.3);
});

it('too few places, and people who are not there, are no correction', () => {
  expect(correctPeople(PEOPLE, { kind: 'add', places: { nose: { x: 0, y: 0 } } })).toBeUndefined();
  expect(correctPeople(PEOPLE, { kind: 'remove', person: 2 })).toBeUndefined();
  expect(correctPeople(PEOPLE, { kind: 'unplace', person: 2, place: 'nose' })).toBeUndefined();
  expect(correctPeople(PEOPLE, { kind: 'remove', person: 1 })).toEqual([OTHER]);
});

it('whatever is corrected can be written and read back, and measuring again leaves it as it is', () => {
  const addition = fc.record({
    kind: fc.constant('add' as const),
    places: fc.dictionary(place, somewhere, { minKeys: 3 }),
  });
  const placing = fc.record({ kind: fc.constant('place' as const), person: fc.constant(1), place, at: somewhere });
  fc.assert(
    fc.property(fc.oneof(addition, placing), (correction) => {
      const people = correctPeople(PEOPLE, correction)!;
      const photo = { photo: 'a.jpg', size: { width: 4000, height: 6000 }, people };
      const reading = readPeopleLine(formatPeopleLine(photo));
      expect(reading).not.toHaveProperty('fault');
      const again = mergeMeasured(photo, { ...photo, people: PEOPLE });
      for (const person of people.filter(({ source }) => source === 'hand')) expect(again.people).toContain(person);
    }),
  );
});

it('the other lines of the file keep their characters', () => {
  const odd = '{ "photo":"b.jpg", "size":[10,20],   "people":[] }';
  const file = parsePeopleFile(`${odd}\nnot a line\n`);
  const text = formatPeopleFile(file, [{ photo: 'a.jpg', size: { width: 1, height: 1 }, people: [PERSON] }]);
  expect(text.split('\n').slice(1)).toEqual([odd, 'not a line', '']);
});
