import fc from 'fast-check';
import { expect, it } from 'vitest';
import { isInsidePhoto, largestCentred } from './crop.ts';
import { drag, WHOLE, type Hold } from './drag.ts';
import { heightOf, widthOf, type Edges } from './shapes.ts';

const PHOTO = { width: 4000, height: 6000 };
const FREE = { photo: PHOTO, degrees: 0, shape: undefined };
const START: Edges = { left: 1000, top: 1000, right: 3000, bottom: 4000 };

it('moves one edge and leaves the others', () => {
  expect(drag(START, ['left'], { x: 100, y: 50 }, FREE)).toEqual({ ...START, left: 1100 });
  expect(drag(START, ['bottom'], { x: 100, y: -50 }, FREE)).toEqual({ ...START, bottom: 3950 });
});

it('slides along the photo’s edge when the whole is moved', () => {
  const { left, top } = drag(START, WHOLE, { x: -3000, y: 200 }, FREE);
  expect(left).toBeCloseTo(0, 0);
  expect(top).toBe(1200);
});

it('comes no further out of the photo than four decimals had it, and against the edge it stays where it is', () => {
  const whole = { left: 0, top: 0, right: 4000, bottom: 6000 };
  expect(drag(whole, WHOLE, { x: -1.2, y: 0 }, FREE).left).toBeCloseTo(0, 5);
  const outside = { left: -0.2, top: 10, right: 3000, bottom: 5000 };
  expect(drag(outside, WHOLE, { x: -1.2, y: 0 }, FREE).left).toBeCloseTo(-0.2, 5);
  expect(drag(outside, WHOLE, { x: 1.2, y: 0 }, FREE).left).toBeCloseTo(1, 5);
});

it('keeps the shape around the opposite corner, or the middle of the opposite edge', () => {
  const options = { ...FREE, shape: 2 / 3 };
  const corner = drag(START, ['right', 'bottom'], { x: -200, y: 0 }, options);
  expect(corner).toEqual({ left: 1000, top: 1000, right: 2800, bottom: 3700 });
  const edge = drag(START, ['bottom'], { x: 0, y: -300 }, options);
  expect(edge).toEqual({ left: 1100, top: 1000, right: 2900, bottom: 3700 });
});

const holds: readonly Hold[] = [['left'], ['top'], ['right'], ['bottom'], ['left', 'top'], ['right', 'bottom'], WHOLE];

it('never leaves a photo that it was in, whatever is pulled', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...holds),
      fc.double({ min: -9000, max: 9000, noNaN: true }),
      fc.double({ min: -9000, max: 9000, noNaN: true }),
      fc.double({ min: -45, max: 45, noNaN: true }),
      fc.boolean(),
      (hold, x, y, degrees, keeps) => {
        const start = largestCentred(PHOTO, degrees, 0.8);
        const options = { photo: PHOTO, degrees, shape: keeps ? 0.8 : undefined };
        const end = drag(start, hold, { x, y }, options);
        expect(isInsidePhoto(end, PHOTO, degrees)).toBe(true);
        expect(widthOf(end)).toBeGreaterThan(0);
        if (keeps) expect(widthOf(end) / heightOf(end)).toBeCloseTo(0.8, 6);
      },
    ),
  );
});
