import { describe, expect, test } from 'vitest';
import { standing } from '../../people/testing/standing.ts';
import { turnedHead } from '../testing/figures.ts';
import { findingsOf, said } from '../testing/scenes.ts';

/** A crop 2000 px wide in which the eyes, at 2000, have that percentage of the width to their right. */
const ahead = (percent: number) => ({ left: 2000 - 20 * (100 - percent), right: 2000 + 20 * percent });

describe('one subject', () => {
  test.each([
    [30, true], [47.9, true], [48.1, false], [60, false],
  ] as const)('with %d %% ahead', (percent, speaks) => {
    expect(said('look-room', { people: [turnedHead('right')], ...ahead(percent) })).toEqual(speaks ? ['right'] : []);
    expect(said('look-room', { people: [turnedHead('left')], ...ahead(100 - percent) })).toEqual(speaks ? ['left'] : []);
  }); // prettier-ignore

  test('value, limit and words', () => {
    expect(findingsOf('look-room', { people: [turnedHead('right')], ...ahead(40) })).toEqual([
      {
        rule: 'look-room',
        severity: 'info',
        message:
          'The subject looks to the right, with 40 % of the width ahead; from 48 % the look has room. Move the crop to the right.',
        edge: 'right',
        value: 40,
        limit: 48,
      },
    ]);
  });

  test('who looks at us has no ahead', () => {
    expect(said('look-room', { people: [standing()], ...ahead(10) })).toEqual([]);
  });

  test('a profile in a centred frame is meant so', () => {
    expect(said('look-room', { people: [turnedHead('right')], composition: 'centred', ...ahead(40) })).toEqual([]);
  });
});

describe('two', () => {
  const pair = (first: 'left' | 'right', second: 'left' | 'right') => [
    turnedHead(first, { x: 1600 }),
    turnedHead(second, { id: 2, x: 2400 }),
  ];

  test('who look at each other, or apart, are left alone', () => {
    expect(said('look-room', { people: pair('right', 'left'), ...ahead(30) })).toEqual([]);
    expect(said('look-room', { people: pair('left', 'right'), ...ahead(30) })).toEqual([]);
  });

  test('who look the same way want room there', () => {
    const found = findingsOf('look-room', { people: pair('right', 'right'), left: 0, right: 3500 });
    expect(found).toMatchObject([{ edge: 'right', value: 42.9 }]);
    expect(found[0]!.message).toMatch(/^Both look to the right/);
  });

  test('of whom one looks at us are left alone', () => {
    const people = [turnedHead('right', { x: 1600 }), standing({ id: 2, x: 2400 })];
    expect(said('look-room', { people, left: 0, right: 3000 })).toEqual([]);
  });
});

test('three are left alone', () => {
  const people = [1, 2, 3].map((id) => turnedHead('right', { id, x: 800 * id }));
  expect(said('look-room', { people, right: 2700 })).toEqual([]);
});
