import { describe, expect, test } from 'vitest';
import { findingsOf, said } from '../testing/scenes.ts';
import type { Frame } from '../testing/scenes.ts';

const RULE = 'aspect';

function message(frame: Frame, tolerance?: number): string {
  const findings = findingsOf(
    RULE,
    { shape: 2 / 3, bottom: 3000, ...frame },
    tolerance === undefined ? {} : { settings: { tolerance } },
  );
  expect(findings.length).toBeLessThan(2);
  return findings[0]?.message ?? '';
}

describe('2:3 upright, 3000 px high: 2000 px wide, 0.5 % off is 10 px', () => {
  test.each([
    [1989, 'Take top and bottom in, or open the sides.'],
    [1991, ''],
    [2000, ''],
    [2009, ''],
    [2011, 'Take the sides in, or open top and bottom.'],
  ])('%d wide', (right, advice) => {
    if (advice) expect(message({ right })).toContain(advice);
    else expect(message({ right })).toBe('');
  });
});

test('the words', () => {
  expect(findingsOf(RULE, { shape: 2 / 3, right: 2400, bottom: 3000 })).toEqual([
    {
      rule: RULE,
      severity: 'warning',
      message: 'The crop is 4:5; the shape asked for is 2:3. Take the sides in, or open top and bottom.',
      value: 80,
      limit: 66.7,
    },
  ]);
});

test('a crop that is nearly of the shape is told how far it is off', () => {
  expect(message({ right: 2011 })).toContain('The crop is 0.5 % too wide for 2:3.');
  expect(message({ right: 1988 })).toContain('The crop is 0.6 % too narrow for 2:3.');
});

test('a free shape is never wrong', () => {
  expect(said(RULE, { shape: undefined, right: 123, bottom: 3000 })).toEqual([]);
});

test('turning changes nothing about a shape', () => {
  expect(message({ right: 2000, degrees: 7 })).toBe('');
  expect(message({ right: 2100, degrees: 7 })).not.toBe('');
});

test('tolerance', () => {
  expect(message({ right: 2050 }, 3)).toBe('');
  expect(message({ right: 2001 }, 0)).not.toBe('');
  expect(message({ right: 2000 }, 0)).toBe('');
});
