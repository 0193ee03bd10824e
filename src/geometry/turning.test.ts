import fc from 'fast-check';
import { expect, test } from 'vitest';
import { turnPoint, unturnPoint } from './turning.ts';

const PHOTO = { width: 4000, height: 3000 };
const point = fc.record({ x: fc.integer({ min: -5000, max: 9000 }), y: fc.integer({ min: -5000, max: 9000 }) });
const degrees = fc.integer({ min: -4500, max: 4500 }).map((hundredths) => hundredths / 100);

// Source: the test vector of DESIGN.md, "Coordinates".
test('positive degrees turn clockwise as seen', () => {
  const { x, y } = turnPoint({ x: 4000, y: 1500 }, PHOTO, 2);
  expect(x).toBeCloseTo(3998.78, 2);
  expect(y).toBeCloseTo(1569.8, 2);
});

test('a quarter turn sends right to bottom', () => {
  const { x, y } = turnPoint({ x: 2100, y: 1500 }, PHOTO, 90);
  expect(x).toBeCloseTo(2000, 9);
  expect(y).toBeCloseTo(1600, 9);
});

test('without turning a point stays where it is', () => {
  expect(turnPoint({ x: 12.5, y: -3 }, PHOTO, 0)).toEqual({ x: 12.5, y: -3 });
});

test('turning back undoes turning', () => {
  fc.assert(
    fc.property(point, degrees, (start, turn) => {
      const back = unturnPoint(turnPoint(start, PHOTO, turn), PHOTO, turn);
      expect(back.x).toBeCloseTo(start.x, 6);
      expect(back.y).toBeCloseTo(start.y, 6);
    }),
  );
});

test('turning keeps distances, and the centre', () => {
  fc.assert(
    fc.property(point, point, degrees, (a, b, turn) => {
      const [turnedA, turnedB] = [turnPoint(a, PHOTO, turn), turnPoint(b, PHOTO, turn)];
      expect(Math.hypot(turnedA.x - turnedB.x, turnedA.y - turnedB.y)).toBeCloseTo(Math.hypot(a.x - b.x, a.y - b.y), 6);
      expect(turnPoint({ x: 2000, y: 1500 }, PHOTO, turn)).toEqual({ x: 2000, y: 1500 });
    }),
  );
});
