import { describe, expect, test } from 'vitest';
import type { Person } from '../../people/person.ts';
import { standing } from '../../people/testing/standing.ts';
import { findingsOf, said } from '../testing/scenes.ts';
import { foundPlaces } from '../../people/places.ts';

const RULE = 'edge-along-body';
const people = [standing()];

// The standing figure's shoulders are at 1600 and 2400, its hips at 1800 and 2200, at the heights 2292 and 3444; the
// middle of the body is at 2868. 2 % of its height of 4064 is 81.3 (common practice, no source).
describe('an upright edge', () => {
  test.each([
    ['beside the shoulder', { right: 2483 }, []],
    ['just in the shoulder', { right: 2480 }, ['1 right']],
    ['through the middle', { right: 2000 }, ['1 right']],
    ['through the middle from the left', { left: 2000 }, ['1 left']],
    ['in the other shoulder', { left: 1520 }, ['1 left']],
    ['beside the other shoulder', { left: 1517 }, []],
    ['in the shoulder of head and shoulders', { right: 2300, bottom: 2860 }, []],
    ['in the shoulder, down to the middle', { right: 2300, bottom: 2876 }, ['1 right']],
    ['beside the legs, under the body', { right: 2000, top: 3500 }, []],
    ['past the whole person', { left: 2700 }, []],
  ])('%s', (_, edges, expected) => {
    expect(said(RULE, { people, ...edges })).toEqual(expected);
  });
});

test('the words', () => {
  expect(findingsOf(RULE, { people, right: 2000 })).toEqual([
    {
      rule: RULE,
      severity: 'warning',
      message:
        'The right edge runs lengthwise through the body of person 1. Open until both shoulders are in, come in to head and ' +
        'shoulders, or leave the person out.',
      person: 1,
      edge: 'right',
      value: 0,
    },
  ]);
});

test('from the side a body is still a tenth of the height wide', () => {
  const [front] = people;
  const inLine = foundPlaces(front!.points).map(([name, point]) => [name, { ...point, x: 0.5 }]);
  const aside = [{ ...front!, points: Object.fromEntries(inLine) as Person['points'] }];
  expect(said(RULE, { people: aside, right: 2000 + 0.05 * 4064 - 2 })).toEqual(['1 right']);
  expect(said(RULE, { people: aside, right: 2000 + 0.05 * 4064 + 2 })).toEqual([]);
});

test('a lower edge crosses a standing body and does not run along it', () => {
  expect(said(RULE, { people, bottom: 2900 })).toEqual([]);
});

test('lying down it is the upper and lower edge that run along it', () => {
  const lying = { people, degrees: 90 };
  const edges = findingsOf(RULE, { ...lying, left: -4000, right: 8000, top: -4000, bottom: 3000 }).map(
    ({ edge }) => edge,
  );
  expect(edges).toEqual(['bottom']);
});

test('unsure shoulders make a soft word, missing hips none', () => {
  expect(said(RULE, { people: [standing({ sureness: { left_shoulder: 0.5 } })], right: 2000 })).toEqual([
    '1 right possibly',
  ]);
  expect(said(RULE, { people: [standing({ without: ['left_hip'] })], right: 2000 })).toEqual([]);
});
