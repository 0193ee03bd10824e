import { expect, test } from 'vitest';
import { subjectsOf } from './subjects.ts';
import { standing } from './testing/standing.ts';

const heights = (...values: number[]) => values.map((height, index) => standing({ id: index + 1, height }));
const ids = (...given: Parameters<typeof subjectsOf>) => subjectsOf(...given).map(({ id }) => id);

// At least half as tall as the tallest: DESIGN.md, "Bodies" (common practice, no source).
test('people at least half as tall as the tallest count', () => {
  expect(ids(heights(3000, 4000, 2000, 1999), undefined)).toEqual([1, 2, 3]);
});

test('the frame may name others', () => {
  expect(ids(heights(3000, 4000, 1000), [3])).toEqual([3]);
});

test('names that nobody has are left out', () => {
  expect(ids(heights(3000), [1, 7])).toEqual([1]);
});

test('naming nobody means nobody', () => {
  expect(ids(heights(3000), [])).toEqual([]);
});

test('an empty photo has no subjects', () => {
  expect(ids([], undefined)).toEqual([]);
});
