import { describe, expect, test } from 'vitest';
import { orientationOf, parseRatio, shapeOf } from './ratio.ts';

describe('parseRatio', () => {
  test.each([
    ['2:3', { a: 2, b: 3 }],
    ['1.91:1', { a: 1.91, b: 1 }],
    [' 16 : 9 ', { a: 16, b: 9 }],
  ])('%s', (text, ratio) => {
    expect(parseRatio(text)).toEqual(ratio);
  });

  test.each(['', '2', '2:', ':3', '0:3', '2:0', '-2:3', '2x3', '2:3:4', 'original', '2,5:3', '1:Infinity', 'NaN:1'])(
    'not %j',
    (text) => {
      expect(parseRatio(text)).toBeUndefined();
    },
  );
});

describe('orientationOf', () => {
  const edges = (right: number, bottom: number) => ({ left: 0, top: 0, right, bottom });

  test('a square, within half a pixel, takes what it is told', () => {
    expect(orientationOf(edges(100, 100.4), 'lying')).toBe('lying');
    expect(orientationOf(edges(100.4, 100), 'upright')).toBe('upright');
  });

  test('higher is upright, wider is lying', () => {
    expect(orientationOf(edges(100, 100.6), 'lying')).toBe('upright');
    expect(orientationOf(edges(100.6, 100), 'upright')).toBe('lying');
  });
});

test('a paper is held upright or lying, however its shape is written', () => {
  expect(shapeOf({ a: 2, b: 3 }, 'upright')).toBe(shapeOf({ a: 3, b: 2 }, 'upright'));
  expect(shapeOf({ a: 2, b: 3 }, 'upright')).toBeCloseTo(0.6667, 4);
  expect(shapeOf({ a: 2, b: 3 }, 'lying')).toBeCloseTo(1.5, 9);
  expect(shapeOf({ a: 1, b: 1 }, 'lying')).toBe(1);
});
