import { describe, expect, test } from 'vitest';
import { findingsOf } from '../testing/scenes.ts';
import type { Frame } from '../testing/scenes.ts';
import { standing } from '../../people/testing/standing.ts';
import type { GivenConfiguration } from '../configuration.ts';

const people = [standing()];

/** `high`, `low` or nothing. */
function eyes(frame: Frame, given: GivenConfiguration = {}): string {
  const findings = findingsOf('eye-line', { people, ...frame }, given);
  expect(findings.length).toBeLessThan(2);
  return /stand (high|low)/.exec(findings[0]?.message ?? '')?.[1] ?? 'fine';
}

// Eye height by length, in percent of the crop's height from the top (DESIGN.md, "Per length"; common practice, no
// source). The eyes are at 1820, so that they stand at a share for top = (1820 − share · bottom) / (1 − share).
describe('highest and lowest place of the eyes', () => {
  test.each([
    ['three-quarter', 4000, 1465.1, 972.2],
    ['half-length', 2900, 1582.9, 1311.8],
    ['close-up', 2100, 1700, 1581.5],
  ] as const)('%s', (_, bottom, high, low) => {
    expect(eyes({ bottom, top: high - 1 })).toBe('fine');
    expect(eyes({ bottom, top: high + 1 })).toBe('high');
    expect(eyes({ bottom, top: low + 1 })).toBe('fine');
    expect(eyes({ bottom, top: low - 1 })).toBe('low');
  });

  test('head and shoulders; what was asked for changes nothing', () => {
    for (const askedLength of [undefined, 'full-length'] as const) {
      const frame = { bottom: 2600, askedLength };
      expect(eyes({ ...frame, top: 1560 })).toBe('fine');
      expect(eyes({ ...frame, top: 1342 })).toBe('fine');
      expect(eyes({ ...frame, top: 1341 })).toBe('low');
    }
  });

  test('a head cut on purpose makes head and shoulders a close-up, whose eyes may stand higher up', () => {
    expect(eyes({ bottom: 2600, top: 1575 })).toBe('fine');
  });

  test('full-length has no range', () => {
    for (const top of [0, 700, 1400, 1800]) expect(eyes({ bottom: 5800, top })).toBe('fine');
  });
});

test('the words', () => {
  expect(findingsOf('eye-line', { people, bottom: 4000, top: 1600 })).toEqual([
    {
      rule: 'eye-line',
      severity: 'info',
      message: 'The eyes stand high: 9.2 % from the top; from 14 % they rest.',
      edge: 'top',
      value: 9.2,
      limit: 14,
    },
  ]);
  expect(findingsOf('eye-line', { people, bottom: 2900, top: 1000 })[0]?.message).toBe(
    'The eyes stand low: 43 % from the top; up to 32 % they rest.',
  );
});

describe('whose eyes', () => {
  const pair = [standing({ x: 1500 }), standing({ id: 2, x: 2500, headTop: 1900 })];

  test('the middle of all faces in the crop', () => {
    // Eyes at 1820 and 2220, 2020 between; three-quarter of the taller: 28 % of 4000 − 1250 is 770.
    expect(eyes({ people: pair, bottom: 4000, top: 1251 })).toBe('fine');
    expect(eyes({ people: pair, bottom: 4000, top: 1249 })).toBe('low');
  });

  test('a face that is out does not count', () => {
    expect(eyes({ people: pair, bottom: 4000, top: 1000, right: 2000 })).toBe('fine');
  });

  test('nor does a bystander’s', () => {
    const beside = [...people, standing({ id: 2, height: 1500, x: 3300, headTop: 3000 })];
    expect(eyes({ people: beside, bottom: 4000, top: 1000 })).toBe('fine');
  });

  test('nobody faces the camera', () => {
    const behind = [standing({ without: ['nose', 'left_eye', 'right_eye'] })];
    expect(eyes({ people: behind, bottom: 4000, top: 1700 })).toBe('fine');
  });
});

test('in a turned picture the eyes are where turning puts them', () => {
  // 1180 px over the centre: at 10° they come down by 17.9 px, to 1837.9; 14 % of 4000 − top.
  expect(eyes({ degrees: 10, bottom: 4000, top: 1484 })).toBe('fine');
  expect(eyes({ degrees: 10, bottom: 4000, top: 1488 })).toBe('high');
});

test('settings', () => {
  expect(eyes({ bottom: 4000, top: 1500 }, { settings: { threeQuarterFrom: 10 } })).toBe('fine');
  expect(eyes({ bottom: 4000, top: 1100 }, { settings: { threeQuarterTo: 20 } })).toBe('low');
});
