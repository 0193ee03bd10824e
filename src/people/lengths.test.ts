import { expect, test } from 'vitest';
import { isLength, LENGTHS, rungOf, tighterThan, widerThan } from './lengths.ts';

test('the ladder runs from full-length to close-up', () => {
  expect(LENGTHS.map(rungOf)).toEqual([0, 1, 2, 3, 4]);
  expect(tighterThan('full-length')).toBe('three-quarter');
  expect(tighterThan('close-up')).toBeUndefined();
  expect(widerThan('close-up')).toBe('head-and-shoulders');
  expect(widerThan('full-length')).toBeUndefined();
});

test('tighter and wider undo each other', () => {
  for (const length of LENGTHS.slice(1)) expect(tighterThan(widerThan(length)!)).toBe(length);
});

test('only these words are lengths', () => {
  expect(LENGTHS.every(isLength)).toBe(true);
  expect(['', 'full', 'Full-Length', 'bust', 'toString'].some(isLength)).toBe(false);
});
