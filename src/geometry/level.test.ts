import fc from 'fast-check';
import { expect, it } from 'vitest';
import { isInsidePhoto, largestCentred } from './crop.ts';
import { cropAfterTurn, degreesToLevel, roundDegrees } from './level.ts';
import { heightOf, widthOf, type Edges, type Size } from './shapes.ts';
import { turnPoint } from './turning.ts';

const PHOTO: Size = { width: 4000, height: 6000 };
const WHOLE: Edges = { left: 0, top: 0, right: 4000, bottom: 6000 };
const degrees = fc.double({ min: -45, max: 45, noNaN: true });

it('leaves a crop with room around it its size, over the same part of the photo', () => {
  const crop = { left: 1000, top: 1000, right: 3000, bottom: 4000 };
  const turned = cropAfterTurn(crop, PHOTO, 0, 5);
  const middle = turnPoint({ x: 2000, y: 2500 }, PHOTO, 5);
  expect(widthOf(turned)).toBeCloseTo(2000, 6);
  expect(heightOf(turned)).toBeCloseTo(3000, 6);
  expect((turned.left + turned.right) / 2).toBeCloseTo(middle.x, 6);
  expect((turned.top + turned.bottom) / 2).toBeCloseTo(middle.y, 6);
});

it('makes of the whole photo the largest crop of its shape that fits', () => {
  const turned = cropAfterTurn(WHOLE, PHOTO, 0, -3);
  const largest = largestCentred(PHOTO, -3, 4000 / 6000);
  for (const edge of ['left', 'top', 'right', 'bottom'] as const) expect(turned[edge]).toBeCloseTo(largest[edge], 6);
});

it('is always in the photo, of the same shape and never larger, whatever the crop was', () => {
  const place = fc.double({ min: -0.5, max: 1.2, noNaN: true });
  const side = fc.double({ min: 0.02, max: 1.5, noNaN: true });
  fc.assert(
    fc.property(place, place, side, side, degrees, degrees, (x, y, w, h, from, to) => {
      const [left, top] = [x * PHOTO.width, y * PHOTO.height];
      const crop = { left, top, right: left + w * PHOTO.width, bottom: top + h * PHOTO.height };
      const turned = cropAfterTurn(crop, PHOTO, from, to);
      expect(isInsidePhoto(turned, PHOTO, to)).toBe(true);
      expect(widthOf(turned) / heightOf(turned)).toBeCloseTo(widthOf(crop) / heightOf(crop), 6);
      expect(widthOf(turned)).toBeLessThanOrEqual(widthOf(crop) + 1e-6);
    }),
  );
});

it('a line along something that leans is level or upright at the degrees that it gives, from either end', () => {
  const anyPoint = fc.record({ x: fc.integer({ min: 0, max: 4000 }), y: fc.integer({ min: 0, max: 6000 }) });
  fc.assert(
    fc.property(anyPoint, anyPoint, fc.double({ min: -20, max: 20, noNaN: true }), (start, end, lean) => {
      fc.pre(Math.hypot(end.x - start.x, end.y - start.y) > 50);
      // What is level in the photo leans by `lean` in the picture that is turned by it.
      for (const other of [
        { x: end.x, y: start.y },
        { x: start.x, y: end.y },
      ]) {
        fc.pre(Math.hypot(other.x - start.x, other.y - start.y) > 50);
        const [from, to] = [turnPoint(start, PHOTO, lean), turnPoint(other, PHOTO, lean)];
        expect(degreesToLevel(from, to, lean)).toBeCloseTo(0, 2);
        expect(degreesToLevel(to, from, lean)).toBeCloseTo(0, 2);
      }
    }),
  );
});

it('a line that falls to the right is levelled against the clock', () => {
  expect(degreesToLevel({ x: 0, y: 0 }, { x: 1000, y: 35 }, 0)).toBe(-2);
  expect(degreesToLevel({ x: 0, y: 0 }, { x: 1000, y: 35 }, 1.5)).toBe(-0.5);
});

it('degrees have two decimals, at most 45, and no negative zero', () => {
  expect(roundDegrees(1.2345)).toBe(1.23);
  expect(roundDegrees(60)).toBe(45);
  expect(roundDegrees(-60)).toBe(-45);
  expect(Object.is(roundDegrees(-0.001), 0)).toBe(true);
});
