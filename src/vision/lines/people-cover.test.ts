import { expect, test } from 'vitest';
import type { Person } from '../../people/person.ts';
import { coverOfPeople } from './people-cover.ts';

const SIZE = { width: 200, height: 100 };

function isCovered(person: Omit<Person, 'id' | 'source' | 'points'>, x: number, y: number): boolean {
  const { data, width } = coverOfPeople([{ id: 1, source: 'model', points: {}, ...person }], SIZE);
  return data[y * width + x] === 1;
}

test('covers the outline and a little around it, not the box', () => {
  const outline = [
    { x: 0.5, y: 0.2 },
    { x: 0.8, y: 0.8 },
    { x: 0.2, y: 0.8 },
  ];
  const person = { box: [0.2, 0.2, 0.6, 0.6], outline } as const;
  expect(isCovered(person, 100, 60)).toBe(true);
  expect(isCovered(person, 100, 19)).toBe(true);
  expect(isCovered(person, 100, 81)).toBe(true);
  expect(isCovered(person, 100, 84)).toBe(false);
  expect(isCovered(person, 45, 30)).toBe(false);
});

test('covers the box where there is no outline, also beyond the picture', () => {
  const person = { box: [-0.1, 0.5, 0.3, 0.7] } as const;
  expect(isCovered(person, 0, 99)).toBe(true);
  expect(isCovered(person, 30, 60)).toBe(true);
  expect(isCovered(person, 50, 60)).toBe(false);
});
