import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { twiceSignedArea } from '../../geometry/points.ts';
import type { Point } from '../../geometry/shapes.ts';
import { contours, simplify } from './contour.ts';

function areaOf(corners: readonly Point[]): number {
  return Math.abs(twiceSignedArea(corners) / 2);
}

function disc(size: number, centre: Point, radius: number): Float32Array {
  const values = new Float32Array(size * size);
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      const distance = Math.hypot(x + 0.5 - centre.x, y + 0.5 - centre.y);
      values[y * size + x] = Math.min(1, Math.max(0, radius - distance + 0.5));
    }
  }
  return values;
}

describe('contours', () => {
  it('runs around a disc at its radius', () => {
    const discs = fc.record({
      x: fc.double({ min: 25, max: 39, noNaN: true }),
      y: fc.double({ min: 25, max: 39, noNaN: true }),
      radius: fc.double({ min: 5, max: 20, noNaN: true }),
    });
    fc.assert(
      fc.property(discs, ({ x, y, radius }) => {
        const contour = contours(disc(64, { x, y }, radius), 64, 64, 0.5)[0]!;
        for (const point of contour) expect(Math.abs(Math.hypot(point.x - x, point.y - y) - radius)).toBeLessThan(0.3);
        expect(Math.abs(areaOf(contour) / (Math.PI * radius ** 2) - 1)).toBeLessThan(0.05);
      }),
    );
  });

  it('is closed where the field ends inside, and empty where nothing reaches the level', () => {
    const full = contours(new Float32Array(12).fill(1), 4, 3, 0.5)[0]!;
    expect(areaOf(full)).toBeGreaterThan(6);
    expect(contours(new Float32Array(12), 4, 3, 0.5)).toEqual([]);
  });

  it('gives the longest of several first', () => {
    const values = disc(64, { x: 20, y: 20 }, 12);
    disc(64, { x: 55, y: 55 }, 4).forEach((value, index) => (values[index] = Math.max(values[index]!, value)));
    const contour = contours(values, 64, 64, 0.5)[0]!;
    expect(contour.every(({ x }) => x < 40)).toBe(true);
  });

  it('runs the other way around a gap', () => {
    const hole = disc(64, { x: 32, y: 32 }, 8);
    const ring = disc(64, { x: 32, y: 32 }, 20).map((value, index) => value - hole[index]!);
    const [outer, gap, ...others] = contours(ring, 64, 64, 0.5);
    expect(others).toEqual([]);
    expect(twiceSignedArea(outer!) * twiceSignedArea(gap!)).toBeLessThan(0);
    expect(areaOf(gap!) / (Math.PI * 8 ** 2)).toBeCloseTo(1, 1);
  });
});

describe('simplify', () => {
  it('keeps the shape with few corners', () => {
    const circle = contours(disc(64, { x: 32, y: 32 }, 20), 64, 64, 0.5)[0]!;
    const few = simplify(circle, 32);
    expect(few).toHaveLength(32);
    expect(areaOf(few) / areaOf(circle)).toBeGreaterThan(0.97);
  });

  it('drops corners on straight lines first', () => {
    const square = [0, 1, 2, 3].flatMap((side) =>
      [0, 0.25, 0.5, 0.75].map(
        (t) =>
          [
            { x: t, y: 0 },
            { x: 1, y: t },
            { x: 1 - t, y: 1 },
            { x: 0, y: 1 - t },
          ][side]!,
      ),
    );
    expect(simplify(square, 4)).toEqual([{ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 1, y: 1 }, { x: 0, y: 1 }]); // prettier-ignore
  });
});
