import fc from 'fast-check';
import { expect, test } from 'vitest';
import { movementOf } from './movement.ts';

const PHOTO = { width: 4000, height: 6000 };
const CROP = { x: 0.2, y: 0.2, w: 0.6, h: 0.6 };

function words(now: typeof CROP, degrees = 0, photo: typeof PHOTO | undefined = PHOTO): readonly string[] {
  return movementOf({ crop: CROP, degrees: 0 }, { crop: now, degrees }, photo).words;
}

test.each([
  ['nothing', CROP, []],
  ['a shift', { ...CROP, x: 0.25, y: 0.19 }, ['moved 200 px to the right and 60 px up, the same size']],
  ['a shift along one side', { ...CROP, y: 0.3 }, ['moved 600 px down, the same size']],
  ['an edge in', { ...CROP, h: 0.5 }, ['tighter: 83 % of the area', 'lower edge 600 px in', 'shape 2:3, now 4:5']],
  [
    'an edge out',
    { ...CROP, x: 0.1, w: 0.7 },
    ['wider: 117 % of the area', 'left edge 400 px out', 'shape 2:3, now 1:1.29'],
  ],
])('%s, in words', (_, now, said) => {
  expect(words(now)).toEqual(said);
});

test('turning is told, and percent stand for pixels of a photo that nobody knows', () => {
  expect(words(CROP, 1.25)).toEqual(['turned by 1.25° clockwise']);
  expect(words(CROP, -0.5)).toEqual(['turned by 0.5° anticlockwise']);
  expect(movementOf({ crop: CROP, degrees: 0 }, { crop: { ...CROP, x: 0.25 }, degrees: 0 }, undefined).words).toEqual([
    'moved 5 % to the right, the same size',
  ]);
});

const fraction = fc.integer({ min: 50, max: 4000 }).map((ticks) => ticks / 10_000);
const crop = fc.record({ x: fraction, y: fraction, w: fraction, h: fraction });

test('going there and back moves each edge by the same pixels the other way', () => {
  fc.assert(
    fc.property(crop, crop, (one, other) => {
      const there = movementOf({ crop: one, degrees: 0 }, { crop: other, degrees: 1 }, PHOTO);
      const back = movementOf({ crop: other, degrees: 1 }, { crop: one, degrees: 0 }, PHOTO);
      expect(there.turned).toBe(-back.turned);
      for (const edge of ['left', 'top', 'right', 'bottom'] as const) {
        // A half pixel is rounded up either way.
        expect(Math.abs((there.edges[edge] ?? 0) + (back.edges[edge] ?? 0))).toBeLessThanOrEqual(1);
      }
    }),
  );
});
