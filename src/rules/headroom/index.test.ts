import { describe, expect, test } from 'vitest';
import { findingsOf, said } from '../testing/scenes.ts';
import { PHOTO, standing } from '../../people/testing/standing.ts';

const RULE = 'headroom';
const people = [standing()];

// Room over the head by length, in percent of the crop's height (DESIGN.md, "Per length"; common practice, no source).
// The head's top is at 1500, so that room = share · height at top = (1500 − share · bottom) / (1 − share).
describe('least and most room over the head', () => {
  const rows = [
    ['full-length', 5800, 1320.8, 741.1],
    ['three-quarter', 4000, 1395.8, 1093.1],
    ['half-length', 2900, 1441.6, 1272.1],
    ['head and shoulders', 2600, 1465.9, 1320.9],
    ['close-up', 2100, 1487.7, 1433.3],
  ] as const;
  test.each(rows)('%s', (_, bottom, least, most) => {
    expect(said(RULE, { people, bottom, top: Math.floor(least) })).toEqual([]);
    expect(said(RULE, { people, bottom, top: Math.ceil(least) })).toEqual(['1 top']);
    expect(said(RULE, { people, bottom, top: Math.ceil(most) })).toEqual([]);
    expect(said(RULE, { people, bottom, top: Math.floor(most) })).toEqual(['1 top']);
  });

  test('the length that the lower edge shows decides, whatever was asked for', () => {
    // 12 % over the head of a half-length: too much for a close-up.
    expect(said(RULE, { people, bottom: 2900, top: 1310 })).toEqual([]);
    expect(said(RULE, { people, bottom: 2900, top: 1310, askedLength: 'close-up' })).toEqual([]);
  });

  test('a small figure may have any room above it, but not too little', () => {
    const small = [standing({ height: 2000, headTop: 3500 })];
    // 2032 px are 60 % of 3386.7 px.
    expect(said(RULE, { people: small, bottom: 5600, top: 2213 })).toEqual([]);
    expect(said(RULE, { people: small, bottom: 5600, top: 2214 })).toEqual(['1 top']);
    expect(said(RULE, { people: small, bottom: 6000, top: 3490 })).toEqual(['1 top']);
  });
});

describe('a cut head', () => {
  // On purpose from 20 to 60 % of the way to the eyes (1820): 1564 to 1692.
  test.each([
    ['grazed in a close-up', 1510, 2100, ['1 top']],
    ['just under 20 %', 1563, 2100, ['1 top']],
    ['from 20 %', 1565, 2100, []],
    ['up to 60 %', 1691, 2100, []],
    ['past 60 %', 1693, 2100, ['1 top']],
    ['in head and shoulders', 1600, 2600, []],
    ['in a half-length', 1600, 2900, ['1 top']],
    ['in a three-quarter', 1600, 4000, ['1 top']],
    ['in a full-length', 1600, 5800, ['1 top']],
  ])('%s', (_, top, bottom, expected) => {
    expect(said(RULE, { people, top, bottom })).toEqual(expected);
  });
});

describe('the words', () => {
  const words = (top: number, bottom: number) => findingsOf(RULE, { people, top, bottom })[0];

  test('a cut head', () => {
    expect(words(1700, 4000)).toEqual({
      rule: RULE,
      severity: 'warning',
      message:
        'The upper edge cuts the head of person 1, and this is no close-up. Open to 4 % over the hair, or come in to a close-up.',
      person: 1,
      edge: 'top',
      value: -8.7,
      limit: 4,
    });
  });

  test('a grazed head: from −2 to 2 %', () => {
    expect(words(1475, 4000)?.message).toBe(
      'The upper edge grazes the head of person 1 (1 %). Leave 4 % over the hair, or cut clearly in a close-up.',
    );
    expect(words(1547, 4000)?.message).toContain('grazes');
    expect(words(1550, 4000)?.message).toContain('cuts');
  });

  test('little room, much room, and a cut too deep for a close-up', () => {
    expect(words(1420, 4000)?.message).toBe(
      'Little room over the head of person 1: 3.1 %, at least 4 % looks meant. Open the top.',
    );
    expect(words(900, 4000)?.message).toBe(
      'Much room over the head of person 1: 19.4 % pulls the eye up; at most 14 %. Bring the top down.',
    );
    expect(words(1750, 2100)?.message).toBe(
      'The upper edge cuts deep into the head of person 1, below where a close-up may. Open to the hairline.',
    );
  });
});

describe('several people', () => {
  const pair = [standing({ x: 1500 }), standing({ id: 2, x: 2500, headTop: 1800 })];

  test('the least holds for every head', () => {
    expect(said(RULE, { people: pair, top: 1480, bottom: 5990 })).toEqual(['1 top']);
    expect(said(RULE, { people: pair, top: 1790, bottom: 5990 })).toEqual(['1 top', '2 top']);
  });

  test('the most holds for the highest head only', () => {
    // Over the first 12 %, over the second 18 %.
    expect(said(RULE, { people: pair, top: 900, bottom: 5990 })).toEqual([]);
    expect(said(RULE, { people: pair, top: 600, bottom: 5990 })).toEqual(['1 top']);
  });

  test('a head whose face is out says nothing', () => {
    expect(said(RULE, { people: pair, top: 1480, bottom: 5990, left: 2100 })).toEqual([]);
  });

  test('a bystander’s head says nothing', () => {
    const beside = [standing(), standing({ id: 2, height: 1500, x: 3300, headTop: 1310 })];
    expect(said(RULE, { people: beside, top: 1300, bottom: 5800 })).toEqual([]);
  });
});

describe('what was measured', () => {
  test('a head top that is not sure', () => {
    expect(said(RULE, { people: [standing({ sureness: { head_top: 0.5 } })], top: 1490, bottom: 4000 })).toEqual([
      '1 top possibly',
    ]);
  });

  test('a head top that was not found is where the proportions put it', () => {
    expect(said(RULE, { people: [standing({ without: ['head_top'] })], top: 1490, bottom: 4000 })).toEqual([
      '1 top possibly',
    ]);
    expect(said(RULE, { people: [standing({ without: ['head_top'] })], top: 1390, bottom: 4000 })).toEqual([]);
  });

  test('without a face there is no head to speak of', () => {
    const behind = [standing({ without: ['nose', 'left_eye', 'right_eye'] })];
    expect(said(RULE, { people: behind, top: 1490, bottom: 4000 })).toEqual([]);
  });
});

test('the photo’s own edge over the head counts like any other', () => {
  expect(said(RULE, { people: [standing({ headTop: 20 })], bottom: 4500 })).toEqual(['1 top']);
});

test('in a turned picture the head is where turning puts it', () => {
  // The head is 1500 px over the centre: at 10° it comes down by 1500 · (1 − cos 10°) = 22.8 px.
  const frame = { people, degrees: 10, left: 500, right: 3500, bottom: PHOTO.height / 2 + 1000 };
  const value = findingsOf(RULE, { ...frame, top: 1500 })[0]?.value;
  expect(value).toBeCloseTo((22.8 / 2500) * 100, 1);
});

test('settings', () => {
  expect(said(RULE, { people, top: 1420, bottom: 4000 }, { settings: { threeQuarterLeast: 3 } })).toEqual([]);
  expect(said(RULE, { people, top: 1200, bottom: 4000 }, { settings: { threeQuarterMost: 10 } })).toEqual(['1 top']);
});
