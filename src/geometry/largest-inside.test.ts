import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isInsidePhoto, largestCentred } from './crop.ts';
import { largestInside } from './largest-inside.ts';
import type { Edges, Point, Size } from './shapes.ts';
import { heightOf, widthOf } from './shapes.ts';
import { turnPoint } from './turning.ts';

const side = fc.integer({ min: 100, max: 6000 });
const asked = fc.record({
  width: side,
  height: side,
  degrees: fc.integer({ min: -4500, max: 4500 }).map((hundredths) => hundredths / 100),
  shape: fc.constantFrom(2 / 3, 3 / 4, 1, 5 / 4, 16 / 9),
  alongX: fc.double({ min: -0.2, max: 1.2, noNaN: true }),
  alongY: fc.double({ min: -0.2, max: 1.2, noNaN: true }),
  highest: fc.double({ min: 20, max: 6000, noNaN: true }),
});

function around(middle: Point, shape: number, height: number): Edges {
  const [x, y] = [(shape * height) / 2, height / 2];
  return { left: middle.x - x, top: middle.y - y, right: middle.x + x, bottom: middle.y + y };
}

/** Whether all four corners, turned back by hand, lie in the photo: without a line of the function's own reckoning. */
function fits(edges: Edges, photo: Size, degrees: number): boolean {
  return [edges.left, edges.right].every((x) =>
    [edges.top, edges.bottom].every((y) => {
      const corner = turnPoint({ x, y }, photo, -degrees);
      return corner.x >= 0 && corner.x <= photo.width && corner.y >= 0 && corner.y <= photo.height;
    }),
  );
}

const STEPS = 40;

/** Middles on a grid over the photo. */
function* middles({ width, height }: Size): Generator<Point> {
  for (let column = 0; column <= STEPS; column++) {
    for (let row = 0; row <= STEPS; row++) yield { x: (width * column) / STEPS, y: (height * row) / STEPS };
  }
}

describe('against a search over a grid', () => {
  test('no larger one fits anywhere', () => {
    fc.assert(
      fc.property(asked, ({ width, height, degrees, shape, alongX, alongY }) => {
        const photo = { width, height };
        const found = largestInside(photo, degrees, { shape, near: { x: alongX * width, y: alongY * height } });
        const larger = 1.001 * heightOf(found);
        for (const middle of middles(photo)) expect(fits(around(middle, shape, larger), photo, degrees)).toBe(false);
      }),
      { numRuns: 60 },
    );
  });

  test('of its size, none lies nearer to the place', () => {
    fc.assert(
      fc.property(asked, ({ width, height, degrees, shape, alongX, alongY, highest }) => {
        const photo = { width, height };
        const near = { x: alongX * width, y: alongY * height };
        const found = largestInside(photo, degrees, { shape, near, highest });
        const away = (edges: Edges) =>
          Math.hypot((edges.left + edges.right) / 2 - near.x, (edges.top + edges.bottom) / 2 - near.y);
        for (const middle of middles(photo)) {
          const other = around(middle, shape, heightOf(found));
          if (fits(other, photo, degrees)) expect(away(other)).toBeGreaterThanOrEqual(away(found) - 1e-6);
        }
      }),
      { numRuns: 60 },
    );
  });
});

test('it lies in the photo, has the shape, and is no higher than asked', () => {
  fc.assert(
    fc.property(asked, ({ width, height, degrees, shape, alongX, alongY, highest }) => {
      const photo = { width, height };
      const found = largestInside(photo, degrees, { shape, near: { x: alongX * width, y: alongY * height }, highest });
      expect(isInsidePhoto(found, photo, degrees)).toBe(true);
      expect(widthOf(found) / heightOf(found)).toBeCloseTo(shape, 9);
      expect(heightOf(found)).toBeLessThanOrEqual(highest + 1e-9);
    }),
  );
});

test('as large as can be it is as large as the centred one, wherever it is looked for', () => {
  const photo = { width: 4000, height: 6000 };
  const centred = largestCentred(photo, 2, 2 / 3);
  const aside = largestInside(photo, 2, { shape: 2 / 3, near: { x: 0, y: 0 } });
  expect(heightOf(aside)).toBeCloseTo(heightOf(centred), 6);
  const middle = largestInside(photo, 2, { shape: 2 / 3, near: { x: 2000, y: 3000 } });
  expect(around({ x: 2000, y: 3000 }, 2 / 3, heightOf(middle)).left).toBeCloseTo(centred.left, 6);
});

test('where there is room it stays where it is', () => {
  const photo = { width: 4000, height: 6000 };
  const found = largestInside(photo, 3, { shape: 1, near: { x: 1800, y: 2500 }, highest: 1000 });
  expect(found.left).toBeCloseTo(1300, 6);
  expect(found.top).toBeCloseTo(2000, 6);
});
