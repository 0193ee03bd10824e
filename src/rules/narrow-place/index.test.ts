import { describe, expect, test } from 'vitest';
import { standing } from '../../people/testing/standing.ts';
import { skirted } from '../testing/figures.ts';
import { findingsOf, said } from '../testing/scenes.ts';

/** The hem is at 3900, the waist at 3000. */
const people = [skirted()];

test.each([
  [3000, []], [3600, []], [3800, ['1 bottom']], [3900, ['1 bottom']], [3980, []], [4300, []], [6000, []],
] as const)('with the lower edge at %d', (bottom, expected) => {
  expect(said('narrow-place', { people, bottom })).toEqual(expected);
}); // prettier-ignore

describe('what it says', () => {
  test('how far it narrows, and which way', () => {
    const [finding] = findingsOf('narrow-place', { people, bottom: 3880 });
    expect(finding).toMatchObject({ severity: 'info', person: 1, edge: 'bottom' });
    expect(finding!.value).toBeLessThan(0);
    expect(finding!.value).toBeGreaterThan(-3);
    expect(finding!.message).toMatch(/further down it narrows, and an edge there looks meant\.$/);
  });
});

test('silent without an outline', () => {
  const { outline, ...person } = skirted();
  expect(outline).toBeDefined();
  expect(said('narrow-place', { people: [person], bottom: 3880 })).toEqual([]);
});

test('silent where nothing narrows enough', () => {
  expect(said('narrow-place', { people, bottom: 3880 }, { settings: { narrower: 60 } })).toEqual([]);
  expect(said('narrow-place', { people: [standing()], bottom: 3880 })).toEqual([]);
});

test('silent where the edge passes beside the body', () => {
  expect(said('narrow-place', { people, bottom: 3880, left: 2700 })).toEqual([]);
});
