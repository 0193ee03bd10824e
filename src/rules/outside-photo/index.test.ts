import { describe, expect, test } from 'vitest';
import { largestCentred } from '../../geometry/crop.ts';
import { findingsOf, said } from '../testing/scenes.ts';
import { PHOTO } from '../../people/testing/standing.ts';

const RULE = 'outside-photo';

describe('an unturned photo', () => {
  test.each([
    ['the whole photo', {}, []],
    ['half a pixel over each edge', { left: -0.5, top: -0.5, right: 4000.5, bottom: 6000.5 }, []],
    ['left', { left: -0.6 }, ['left']],
    ['above', { top: -0.6 }, ['top']],
    ['right', { right: 4000.6 }, ['right']],
    ['below', { bottom: 6000.6 }, ['bottom']],
    ['two edges, one fault', { left: -10, bottom: 6100 }, ['']],
    ['wholly outside', { left: 5000, right: 6000 }, ['right']],
  ])('%s', (_, edges, expected) => {
    expect(said(RULE, edges)).toEqual(expected);
  });

  test('the words', () => {
    expect(findingsOf(RULE, { right: 4100 })[0]).toMatchObject({
      severity: 'error',
      message: "The crop goes past the photo's right edge. Come in to the photo's edge.",
      edge: 'right',
      limit: 0.5,
    });
  });
});

test('several edges are told at once', () => {
  const words = (edges: Readonly<Record<string, number>>) => findingsOf(RULE, edges).map(({ message }) => message);
  expect(words({ left: -10, bottom: 6100 })).toEqual([
    "The crop goes past the photo's left and lower edges. Come in to the photo's edge.",
  ]);
  expect(words({ left: 0, top: 0, right: 4000, bottom: 6000, degrees: -2 })).toEqual([
    'The turned photo does not reach the left, upper, right and lower edges of the crop: an empty corner would show. Come in, or turn less.',
  ]);
});

describe('a turned photo', () => {
  test.each([-45, -10, -1.4, 0.01, 2, 10, 45])('the largest centred crop fits at %d°', (degrees) => {
    const { left, top, right, bottom } = largestCentred(PHOTO, degrees, 2 / 3);
    expect(said(RULE, { degrees, left, top, right, bottom })).toEqual([]);
    const bigger = { left: left - 2, top: top - 2, right: right + 2, bottom: bottom + 2 };
    expect(said(RULE, { degrees, ...bigger })).not.toEqual([]);
  });

  test('one corner outside', () => {
    // At +10° the photo's left side runs from (551, -302) to (-491, 5607); at 900 it is at 339.
    const found = findingsOf(RULE, { degrees: 10, left: 320, top: 900, right: 3000, bottom: 4000 });
    expect(found.map(({ edge }) => edge)).toEqual(['left']);
    expect(found[0]?.message).toBe(
      'The turned photo does not reach the left edge of the crop: an empty corner would show. Come in, or turn less.',
    );
    expect(said(RULE, { degrees: 10, left: 345, top: 900, right: 3000, bottom: 4000 })).toEqual([]);
  });

  test('a crop that an unturned photo could not hold may fit a turned one', () => {
    // x may be negative: DESIGN.md, "Coordinates".
    expect(said(RULE, { degrees: 10, left: -100, top: 5500, right: 500, bottom: 5600 })).toEqual([]);
    expect(said(RULE, { degrees: 0, left: -100, top: 5500, right: 500, bottom: 5600 })).toEqual(['left']);
  });
});
