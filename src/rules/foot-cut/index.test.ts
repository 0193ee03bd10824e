import { describe, expect, test } from 'vitest';
import { findingsOf, said } from '../testing/scenes.ts';
import { standing } from '../../people/testing/standing.ts';

const RULE = 'foot-cut';
const people = [standing({ toes: true })];
const both = (word = '') => [`1 left_foot bottom${word}`, `1 right_foot bottom${word}`];

// The left foot of the standing figure: 2160 to 2280 across, ankle 5408 to sole 5564; 4 % of its lower leg (984) is 39.4
// (common practice, no source).
describe('feet whose toes were found', () => {
  test.each([
    ['above the ankle', { bottom: 5368 }, []],
    ['just above the ankle', { bottom: 5370 }, both()],
    ['through the instep', { bottom: 5500 }, both()],
    ['just under the sole', { bottom: 5603 }, both()],
    ['well under the sole', { bottom: 5604 }, []],
    ['through the left foot from the right', { right: 2250 }, ['1 left_foot right']],
    ['well beside it', { right: 2320 }, []],
  ])('%s', (_, edges, expected) => {
    expect(said(RULE, { people, ...edges })).toEqual(expected);
  });
});

describe('feet whose toes were not found', () => {
  // Extrapolated from the shin: 26 % of it past the ankle, no margin: 5408 to 5663.8.
  test.each([
    [5407, []],
    [5409, both(' possibly')],
    [5663, both(' possibly')],
    [5664, []],
  ])('a lower edge at %d', (bottom, expected) => {
    expect(said(RULE, { people: [standing()], bottom })).toEqual(expected);
  });

  test('the outline’s end is the foot’s', () => {
    const outlined = [standing({ outlined: true })];
    expect(said(RULE, { people: outlined, bottom: 5563 })).toEqual(both(' possibly'));
    expect(said(RULE, { people: outlined, bottom: 5565 })).toEqual([]);
  });

  test('without a knee nothing is known', () => {
    expect(said(RULE, { people: [standing({ without: ['left_knee', 'right_knee'] })], bottom: 5500 })).toEqual([]);
  });
});

describe('a hem that hides the feet', () => {
  const without = ['left_ankle', 'right_ankle', 'left_knee', 'right_knee'] as const;
  const robed = [standing({ outlined: true, without })];
  // The outline ends at 5564; 6 % of the height (4064) above it reads as the hem (common practice, no source).
  test.each([
    ['above the hem', 5320, []],
    ['in the hem', 5321, ['1 hem bottom']],
    ['just above its end', 5563, ['1 hem bottom']],
    ['at its end', 5564, []],
  ])('%s', (_, bottom, expected) => {
    expect(said(RULE, { people: robed, bottom })).toEqual(expected);
  });

  test('the words', () => {
    expect(findingsOf(RULE, { people: robed, bottom: 5500 })[0]).toMatchObject({
      message:
        'The lower edge cuts the hem of person 1, which stands for the feet. Open until the whole hem is in, or come up to mid-thigh.',
      value: -1.6,
    });
  });

  test('with an ankle in sight the feet speak for themselves', () => {
    expect(said(RULE, { people: [standing({ outlined: true, without: ['left_ankle'] })], bottom: 5500 })).toEqual([
      '1 right_foot bottom possibly',
    ]);
  });

  test('without an outline nothing is known of a hem', () => {
    expect(said(RULE, { people: [standing({ without })], bottom: 5500 })).toEqual([]);
  });
});

test('the words', () => {
  expect(findingsOf(RULE, { people, bottom: 5500 })[0]).toEqual({
    rule: RULE,
    severity: 'warning',
    message: 'The lower edge cuts the left foot of person 1. Open until both feet are in, or come up to mid-thigh.',
    person: 1,
    joint: 'left_foot',
    edge: 'bottom',
    value: 1.4,
    limit: 4,
  });
});

test('a bystander’s foot says nothing', () => {
  const beside = [standing({ toes: true }), standing({ id: 2, height: 1500, x: 3400, headTop: 3480, toes: true })];
  expect(said(RULE, { people: beside, bottom: 5000 })).toEqual([]);
  expect(said(RULE, { people: beside, bottom: 5000, subjects: [2] })).toEqual([
    '2 left_foot bottom',
    '2 right_foot bottom',
  ]);
});

test('two people who stand at different heights', () => {
  const pair = [standing({ x: 1800, toes: true }), standing({ id: 2, x: 2300, headTop: 1700, toes: true })];
  expect(said(RULE, { people: pair, bottom: 5650 })).toEqual(['2 left_foot bottom', '2 right_foot bottom']);
});

test('the photo’s own edge cuts like any other', () => {
  expect(said(RULE, { people: [standing({ headTop: 1960, toes: true })] })).toEqual(both());
});

test('in a slightly turned picture the feet stay where the centre’s turning puts them', () => {
  // The feet lie under the centre: +3° moves them left, and down or up by less than 280 px · sin 3° = 15 px.
  const turned = { people, degrees: 3, left: 800, right: 3200, top: 800 };
  expect(said(RULE, { ...turned, bottom: 5500 })).toEqual(both());
  expect(said(RULE, { ...turned, bottom: 5640 })).toEqual([]);
});

test('a wider margin', () => {
  expect(said(RULE, { people, bottom: 5640 })).toEqual([]);
  expect(said(RULE, { people, bottom: 5640 }, { settings: { margin: 10 } })).toEqual(both());
});
