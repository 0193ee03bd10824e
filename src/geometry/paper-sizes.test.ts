import { expect, test } from 'vitest';
import { PAPER_NAMES, PAPERS } from './paper-sizes.ts';

// Source: ISO 216:2007, table of the A and B series (from memory, as printed in any table of paper sizes).
const STANDARD: readonly (readonly [string, number, number])[] = [
  ['A0', 841, 1189],
  ['A1', 594, 841],
  ['A2', 420, 594],
  ['A3', 297, 420],
  ['A4', 210, 297],
  ['A5', 148, 210],
  ['A6', 105, 148],
  ['A7', 74, 105],
  ['A8', 52, 74],
  ['A9', 37, 52],
  ['A10', 26, 37],
  ['B0', 1000, 1414],
  ['B1', 707, 1000],
  ['B2', 500, 707],
  ['B3', 353, 500],
  ['B4', 250, 353],
  ['B5', 176, 250],
  ['B6', 125, 176],
  ['B7', 88, 125],
  ['B8', 62, 88],
  ['B9', 44, 62],
  ['B10', 31, 44],
];

test.each(STANDARD)('%s is %i by %i mm', (name, short, long) => {
  expect(PAPERS.get(name)).toEqual({ short, long });
});

test('papers of the trade are what their names say', () => {
  expect(PAPERS.get('13x18cm')).toEqual({ short: 130, long: 180 });
  expect(PAPERS.get('8x10in')!.long).toBeCloseTo(254, 9);
});

test('no name stands twice, and the short side is the shorter', () => {
  expect(new Set(PAPER_NAMES.map((name) => name.toLowerCase())).size).toBe(PAPER_NAMES.length);
  for (const { short, long } of PAPERS.values()) expect(short).toBeLessThanOrEqual(long);
});
