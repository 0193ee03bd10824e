import { describe, expect, test } from 'vitest';
import { sessionOfSeed, tryCase } from './case.ts';

// The long run is `npm run fuzz`, part of `npm run verify`. What it ever found stands by hand in tests/input/rows.
describe('spoilt sessions', () => {
  test('a seed is always the same session', async () => {
    for (const seed of [1, 2, 3, 4, 5]) expect(await sessionOfSeed(seed)).toEqual(await sessionOfSeed(seed));
  });

  test('seeds differ, and all three parts get spoilt', async () => {
    const sessions = await Promise.all(Array.from({ length: 60 }, (_, seed) => sessionOfSeed(seed)));
    expect(new Set(sessions.map(({ manifest }) => String(manifest))).size).toBe(60);
    expect(sessions.some(({ manifest }) => !String(manifest).startsWith('selvedge: 1 # the format\n'))).toBe(true);
    expect(sessions.some(({ people }) => !isJsonLines(String(people)))).toBe(true);
    expect(new Set(sessions.map(({ photos }) => photos.get('a.jpg')!.toString('latin1'))).size).toBeGreaterThan(5);
  });

  test.each(Array.from({ length: 12 }, (_, index) => 1 + index))('seed %i', async (seed) => {
    await expect(tryCase(seed)).resolves.toBeGreaterThan(0);
  });
});

function isJsonLines(text: string): boolean {
  try {
    text
      .split('\n')
      .filter(Boolean)
      .forEach((line) => JSON.parse(line) as unknown);
    return true;
  } catch {
    return false;
  }
}
