import { describe, expect, it } from 'vitest';
import { nearestWord } from './spelling.ts';

describe('nearestWord', () => {
  it.each([
    ['crpo', 'crop'],
    ['Crop', 'crop'],
    ['lenght', 'length'],
    ['edge_along_limb', 'edge-along-limb'],
    ['X', 'x'],
    ['a', undefined],
    ['brightness', undefined],
    ['c'.repeat(100_000), undefined],
  ])('%.20s', (word, expected) => {
    expect(nearestWord(word, ['x', 'crop', 'length', 'edge-along-limb'])).toBe(expected);
  });
});
