import { expect, it } from 'vitest';
import { shapeWords } from './shape-words.ts';

it('names papers by their numbers, as they are held', () => {
  expect(shapeWords(2000, 3000)).toBe('2:3');
  expect(shapeWords(3000, 2000)).toBe('3:2');
  expect(shapeWords(1000, 1003)).toBe('1:1');
  expect(shapeWords(800, 1000)).toBe('4:5');
});

it('gives any other shape as so much to one', () => {
  expect(shapeWords(1000, 1410)).toBe('1:1.41');
  expect(shapeWords(2350, 1000)).toBe('2.35:1');
});
