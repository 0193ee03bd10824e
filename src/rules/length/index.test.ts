import { describe, expect, test } from 'vitest';
import type { Length } from '../../people/lengths.ts';
import { LENGTHS, rungOf } from '../../people/lengths.ts';
import { standing } from '../../people/testing/standing.ts';
import { findingsOf, said } from '../testing/scenes.ts';

const RULE = 'length';
const people = [standing({ toes: true })];

// The standing figure: shoulders 2292, 45 % of the way to the hips 2810, hips 3444, soles 5564; top of the head 1500 and
// eyes 1820, so that a head is cut on purpose from 1564.
const LOWER_EDGES: Readonly<Record<Length, number>> = {
  'full-length': 5700,
  'three-quarter': 4000,
  'half-length': 3000,
  'head-and-shoulders': 2500,
  'close-up': 2200,
};

describe.each(LENGTHS)('a frame that asks for %s', (asked) => {
  test.each(LENGTHS)('and shows %s', (shown) => {
    const findings = findingsOf(RULE, { people, askedLength: asked, bottom: LOWER_EDGES[shown] });
    if (shown === asked) expect(findings).toEqual([]);
    else {
      expect(findings).toHaveLength(1);
      expect(findings[0]).toMatchObject({ value: rungOf(shown), limit: rungOf(asked), edge: 'bottom', person: 1 });
      expect(findings[0]!.message).toMatch(rungOf(shown) < rungOf(asked) ? /Come up to it\.$/ : /Open to it\.$/);
    }
  });
});

test('the words', () => {
  expect(findingsOf(RULE, { people, askedLength: 'close-up', bottom: 4000 }).map(({ message }) => message)).toEqual([
    'This is three-quarter length; the frame asks for a close-up. Come up to it.',
  ]);
});

test('a head that is cut on purpose is a close-up, and no longer head and shoulders', () => {
  expect(said(RULE, { people, askedLength: 'close-up', top: 1600, bottom: 2500 })).toEqual([]);
  expect(said(RULE, { people, askedLength: 'close-up', top: 1600, bottom: 3000 })).toEqual(['1 bottom']);
  expect(said(RULE, { people, askedLength: 'head-and-shoulders', top: 1600, bottom: 2500 })).toEqual(['1 bottom']);
});

test('a frame that asks for nothing hears nothing', () => {
  expect(said(RULE, { people, bottom: 4000 })).toEqual([]);
});

test('the tallest subject counts', () => {
  const pair = [...people, standing({ id: 2, x: 3000, headTop: 3000, height: 2500 })];
  expect(said(RULE, { people: pair, askedLength: 'half-length', bottom: 4000 })).toEqual(['1 bottom']);
});
