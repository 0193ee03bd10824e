import { describe, expect, test } from 'vitest';
import type { Point } from '../../geometry/shapes.ts';
import { findingsOf, said } from '../testing/scenes.ts';
import { PHOTO, standing } from '../../people/testing/standing.ts';

const RULE = 'edge-clearance';
const people = [standing({ outlined: true })];

// The outline of the standing figure reaches 2660 on the right (the left hand, at 3620), 4052 down at the fingertips and
// 5564 at the soles. Room 2.5 % of the short side, under the feet 3 %, a graze under 4 % (common practice, no source).
describe('the hand and the right edge of a crop that begins at 1000', () => {
  const frame = { people, left: 1000, top: 1100, bottom: 5800 };
  // The short side is right − 1000: enough room from 2702.6, a clear cut up to 2596.2.
  test.each([
    [2703, []],
    [2702, ['1 right']],
    [2660, ['1 right']],
    [2597, ['1 right']],
    [2596, []],
  ])('at %d', (right, expected) => {
    expect(said(RULE, { ...frame, right })).toEqual(expected);
  });

  test('mirrored', () => {
    expect(said(RULE, { people, right: 3000, left: 1298, top: 1100, bottom: 5800 })).toEqual(['1 left']);
    expect(said(RULE, { people, right: 3000, left: 1297, top: 1100, bottom: 5800 })).toEqual([]);
  });

  test('a span that does not reach the hand', () => {
    expect(said(RULE, { ...frame, right: 2660, bottom: 3600 })).toEqual([]);
  });

  test('a flat crop measures by its height', () => {
    // 400 high: 10 px of room are enough.
    expect(said(RULE, { people, left: 1000, right: 2671, top: 3450, bottom: 3850 })).toEqual([]);
    expect(said(RULE, { people, left: 1000, right: 2669, top: 3450, bottom: 3850 })).toEqual(['1 right']);
  });
});

describe('the lower edge of a crop 2000 px wide', () => {
  const frame = { people, left: 1000, right: 3000, top: 1100 };
  test.each([
    ['room under the feet', 5624, []],
    ['too little', 5623, ['1 bottom']],
    ['a graze', 5485, ['1 bottom']],
    ['a clear cut', 5484, []],
    ['room under the fingertips', 4102, []],
    ['too little', 4101, ['1 bottom']],
    ['a graze', 3973, ['1 bottom']],
    ['a clear cut', 3972, []],
  ])('%s', (_, bottom, expected) => {
    expect(said(RULE, { ...frame, bottom })).toEqual(expected);
  });

  test('the words', () => {
    expect(findingsOf(RULE, { ...frame, bottom: 5604 })[0]).toEqual({
      rule: RULE,
      severity: 'warning',
      message:
        'Too little room under the feet of person 1. Leave at least 3 % of the short side, or come up to mid-thigh.',
      person: 1,
      edge: 'bottom',
      value: 2,
      limit: 3,
    });
    expect(findingsOf(RULE, { ...frame, bottom: 4052 })[0]?.message).toBe(
      'The lower edge comes within a hair of person 1, or grazes them. Leave at least 2.5 % of the short side, or cut clearly.',
    );
  });
});

describe('where the photo itself ends', () => {
  // The photo is 4000 wide, so under the feet it is 120 px that are asked for, and 40 that are enough at its own edge.
  test.each([
    ['a third of the room', 5960 - 5564 - 1, []],
    ['less', 5960 - 5564 + 1, ['1 bottom']],
  ])('%s', (_, lower, expected) => {
    const low = [standing({ outlined: true, headTop: 1500 + lower })];
    expect(said(RULE, { people: low, top: 1000 })).toEqual(expected);
  });

  test('a crop that stops short of it has more to give', () => {
    const low = [standing({ outlined: true, headTop: 1500 + 330 })];
    expect(said(RULE, { people: low, top: 1000 })).toEqual([]);
    expect(said(RULE, { people: low, top: 1000, bottom: 5990 })).toEqual(['1 bottom']);
  });

  test('a turned picture has no edge of its own', () => {
    const low = [standing({ outlined: true, headTop: 1500 + 330 })];
    expect(said(RULE, { people: low, degrees: 0.001, top: 1000 })).toEqual(['1 bottom']);
  });
});

describe('the head', () => {
  test('is left to headroom', () => {
    expect(said(RULE, { people, top: 1490 })).toEqual([]);
  });

  test('a hand held up higher is not', () => {
    const raised: Point = { x: 2700 / PHOTO.width, y: 1300 / PHOTO.height };
    const outline = people[0]!.outline!.map((corner, index) => (index === 4 ? raised : corner));
    expect(said(RULE, { people: [{ ...people[0]!, outline }], top: 1290 })).toEqual(['1 top']);
  });
});

test('without an outline it says nothing', () => {
  expect(said(RULE, { people: [standing()], right: 2660, bottom: 5570 })).toEqual([]);
});

test('where the photo’s own edge ends the body there is no room to leave', () => {
  expect(said(RULE, { people: [standing({ outlined: true, headTop: 2600 })] })).toEqual([]);
  expect(said(RULE, { people: [standing({ outlined: true, headTop: 2600 })], bottom: 5990 })).toEqual([]);
});

test('the photo’s own edge close to the feet', () => {
  expect(said(RULE, { people: [standing({ outlined: true, headTop: 1900 })] })).toEqual(['1 bottom']);
});

test('a bystander says nothing', () => {
  const beside = [...people, standing({ id: 2, height: 1500, x: 3300, headTop: 3500, outlined: true })];
  expect(said(RULE, { people: beside, right: 3550 })).toEqual([]);
});

test('two people who overlap: each is told once an edge', () => {
  const pair = [standing({ x: 1900, outlined: true }), standing({ id: 2, x: 2000, outlined: true })];
  expect(said(RULE, { people: pair, bottom: 5570, right: 2590, left: 1000 }).sort()).toEqual([
    '1 bottom',
    '1 right',
    '2 bottom',
  ]);
});

test('a person on the far side of the edge says nothing', () => {
  const apart = [standing({ x: 900, outlined: true }), standing({ id: 2, x: 2800, outlined: true })];
  expect(said(RULE, { people: apart, right: 1700, bottom: 5800 })).toEqual([]);
});

test('in a turned picture the hand is where turning puts it', () => {
  // At 10° the hand goes from (2660, 3620) to (2542.3, 3725.2).
  const frame = { people, degrees: 10, left: 800, top: 1200, bottom: 5000 };
  expect(said(RULE, { ...frame, right: 2545 })).toEqual(['1 right']);
  expect(said(RULE, { ...frame, right: 2660 })).toEqual([]);
});

test('less room', () => {
  const frame = { people, left: 1000, right: 3000, top: 1100, bottom: 5604 };
  expect(said(RULE, frame, { settings: { feet: 1.9 } })).toEqual([]);
  expect(said(RULE, { ...frame, bottom: 5490 }, { settings: { graze: 3 } })).toEqual([]);
});
