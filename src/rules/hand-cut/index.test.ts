import { describe, expect, test } from 'vitest';
import { findingsOf, said } from '../testing/scenes.ts';
import { standing } from '../../people/testing/standing.ts';

const RULE = 'hand-cut';
const people = [standing({ fingers: true })];
const both = (edge: string, word = '') => [`1 left_hand ${edge}${word}`, `1 right_hand ${edge}${word}`];

// The left hand of the standing figure: 2480 to 2620 across, 3620 to 4052 down; its forearm is 585.4 long, 4 % of it
// is 23.4 (common practice, no source).
describe('hands whose fingers were found', () => {
  test.each([
    ['above the wrist', { bottom: 3596 }, []],
    ['just above the wrist', { bottom: 3597 }, both('bottom')],
    ['through the knuckles', { bottom: 3836 }, both('bottom')],
    ['at the fingertips', { bottom: 4052 }, both('bottom')],
    ['just under the fingertips', { bottom: 4075 }, both('bottom')],
    ['well under the fingertips', { bottom: 4076 }, []],
    ['through one hand from the right', { right: 2550 }, ['1 left_hand right']],
    ['just beside the hand', { right: 2644 }, []],
    ['just too near beside the hand', { right: 2643 }, ['1 left_hand right']],
    ['past the hand', { right: 2456 }, []],
  ])('%s', (_, edges, expected) => {
    expect(said(RULE, { people, ...edges })).toEqual(expected);
  });

  test('an edge whose span ends above the hand', () => {
    expect(said(RULE, { people, right: 2550, bottom: 3596 })).toEqual([]);
  });
});

describe('hands whose fingers were not found', () => {
  const plain = [standing()];
  // Extrapolated: 60 % of the forearm past the wrist, 12 % around, no margin: 3549.8 to 4040.6.
  test.each([
    [3549, []],
    [3551, both('bottom', ' possibly')],
    [4040, both('bottom', ' possibly')],
    [4042, []],
  ])('a lower edge at %d', (bottom, expected) => {
    expect(said(RULE, { people: plain, bottom })).toEqual(expected);
  });

  test('without an elbow nobody knows where the hand points', () => {
    expect(said(RULE, { people: [standing({ without: ['left_elbow'] })], bottom: 3836 })).toEqual([
      '1 right_hand bottom possibly',
    ]);
  });
});

test('the words', () => {
  expect(findingsOf(RULE, { people, bottom: 3836 })[0]).toEqual({
    rule: RULE,
    severity: 'warning',
    message:
      'The lower edge cuts the left hand of person 1. Open until the whole hand is in, or come in to the middle of the forearm.',
    person: 1,
    joint: 'left_hand',
    edge: 'bottom',
    value: 0,
    limit: 4,
  });
});

test('fingers that are not sure make a hand that is possible', () => {
  const unsure = [standing({ fingers: true, confidence: 0.6 })];
  expect(said(RULE, { people: unsure, bottom: 3836 })).toEqual(both('bottom', ' possibly'));
});

test('a person put out of the crop says nothing', () => {
  expect(
    said(RULE, {
      people: [standing({ x: 700, fingers: true }), standing({ id: 2, x: 2800, fingers: true })],
      left: 1900,
      bottom: 3836,
    }),
  ).toEqual(['2 left_hand bottom', '2 right_hand bottom']);
});

test('a bystander’s hand says nothing', () => {
  const beside = [
    standing({ fingers: true }),
    standing({ id: 2, height: 1500, x: 3400, headTop: 2500, fingers: true }),
  ];
  expect(said(RULE, { people: beside, bottom: 3400 })).toEqual([]);
});

test('the hands of two people who overlap', () => {
  const pair = [standing({ x: 1800, fingers: true }), standing({ id: 2, x: 2200, fingers: true })];
  expect(said(RULE, { people: pair, bottom: 3836 })).toHaveLength(4);
});

test('the photo’s own edge cuts like any other', () => {
  expect(said(RULE, { people: [standing({ x: 3440, fingers: true })] })).toEqual(['1 left_hand right']);
});

test('in a turned picture one hand hangs lower than the other', () => {
  // At +5° the left hand, at the viewer’s right, comes down by 560 · sin 5° = 49 px against the body’s middle.
  const turned = { people, degrees: 5, left: 800, right: 3200, top: 800 };
  expect(said(RULE, { ...turned, bottom: 4050 })).toContain('1 left_hand bottom');
  expect(said(RULE, { ...turned, bottom: 4050 })).not.toContain('1 right_hand bottom');
});

test('a wider margin', () => {
  expect(said(RULE, { people, bottom: 4100 })).toEqual([]);
  expect(said(RULE, { people, bottom: 4100 }, { settings: { margin: 10 } })).toEqual(both('bottom'));
});
