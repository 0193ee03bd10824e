import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { figureOf } from './figure.ts';
import { foundLength, headCutFrom, headCutTo, lengthSpans } from './length-spans.ts';
import { LENGTHS } from './lengths.ts';
import { anybody } from './testing/anybody.ts';
import { PHOTO, standing } from './testing/standing.ts';

const figure = figureOf(standing({ toes: true }), PHOTO, 0);
const crop = (bottom: number, top = 1300) => ({ left: 0, top, right: 4000, bottom });

// DESIGN.md, "Bodies", on the standing figure: shoulders 2292, hips 3444, soles 5564; 45 % of the torso is 2810.4.
describe('the length by the lower edge', () => {
  test.each([
    [5564, 'full-length'],
    [5563, 'three-quarter'],
    [3444, 'three-quarter'],
    [3443, 'half-length'],
    [2811, 'half-length'],
    [2810, 'head-and-shoulders'],
    [2292, 'head-and-shoulders'],
    [2291, 'close-up'],
    [1600, 'close-up'],
  ])('%d is %s', (bottom, length) => {
    expect(foundLength(figure, crop(bottom))).toBe(length);
  });

  test('a head cut on purpose makes head and shoulders a close-up, and nothing else', () => {
    // A fifth of the way from the head's top (1500) to the eyes (1820): 1564.
    expect(foundLength(figure, crop(2600, 1563))).toBe('head-and-shoulders');
    expect(foundLength(figure, crop(2600, 1564))).toBe('close-up');
    expect(foundLength(figure, crop(2900, 1564))).toBe('half-length');
    expect([headCutFrom(figure), headCutTo(figure)].map(Math.round)).toEqual([1564, 1692]);
  });

  test('a hem that hides the feet stands for them', () => {
    const without = ['left_ankle', 'right_ankle'] as const;
    const robed = figureOf(standing({ outlined: true, without }), PHOTO, 0);
    expect(foundLength(robed, crop(5564))).toBe('full-length');
    expect(foundLength(robed, crop(5560))).toBe('three-quarter');
  });
});

test('of anybody, the spans follow each other without a gap and cover every height', () => {
  fc.assert(
    fc.property(anybody, (person) => {
      const spans = lengthSpans(figureOf(person, PHOTO, 0));
      expect(spans.map(({ length }) => length)).toEqual([...LENGTHS]);
      expect(spans[0]?.to).toBe(Infinity);
      expect(spans.at(-1)?.from).toBe(-Infinity);
      for (const [index, span] of spans.slice(1).entries()) {
        expect(span.to).toBe(spans[index]?.from);
        expect(span.from).toBeLessThanOrEqual(span.to);
      }
    }),
  );
});
