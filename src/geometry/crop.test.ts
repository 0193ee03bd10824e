import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  CORNER_TOLERANCE,
  defaultCrop,
  effectiveEdges,
  insidePhoto,
  isInsidePhoto,
  largestCentred,
  roundCrop,
} from './crop.ts';
import { edgesOf, heightOf, widthOf, type Edges, type Size } from './shapes.ts';
import { unturnPoint } from './turning.ts';

const PHOTO = { width: 4000, height: 6000 };
const side = fc.integer({ min: 200, max: 9000 });
const photo = fc.record({ width: side, height: side });
const degrees = fc.integer({ min: -4500, max: 4500 }).map((hundredths) => hundredths / 100);
const crop = fc.record({
  x: fc.double({ min: -0.2, max: 0.9, noNaN: true }),
  y: fc.double({ min: -0.2, max: 0.9, noNaN: true }),
  w: fc.double({ min: 0.01, max: 1.2, noNaN: true }),
  h: fc.double({ min: 0.01, max: 1.2, noNaN: true }),
});

/** How far the worst corner lies outside the photo, found by turning the corners back. In pixels. */
function outside(edges: Edges, size: Size, turn: number): number {
  const corners = [edges.left, edges.right].flatMap((x) => [edges.top, edges.bottom].map((y) => ({ x, y })));
  const far = corners.map((corner) => {
    const { x, y } = unturnPoint(corner, size, turn);
    return Math.max(-x, -y, x - size.width, y - size.height);
  });
  return Math.max(...far);
}

describe('roundCrop', () => {
  test('rounds x and y up, the far edges down', () => {
    expect(roundCrop({ x: 0.10001, y: 0.2, w: 0.5, h: 0.30009 })).toEqual({ x: 0.1001, y: 0.2, w: 0.4999, h: 0.3 });
  });

  test('takes the noise of floating numbers for what was meant', () => {
    expect(roundCrop({ x: 0.1 + 0.2, y: 0, w: 0.1, h: 1 })).toEqual({ x: 0.3, y: 0, w: 0.1, h: 1 });
  });

  test('never writes −0', () => {
    expect(Object.is(roundCrop({ x: -0.00001, y: -0, w: 1, h: 1 }).x, 0)).toBe(true);
  });

  test('never grows, loses less than a ten-thousandth at each edge, and is done after once', () => {
    fc.assert(
      fc.property(crop, (given) => {
        const rounded = roundCrop(given);
        const losses = [
          rounded.x - given.x,
          rounded.y - given.y,
          given.x + given.w - (rounded.x + rounded.w),
          given.y + given.h - (rounded.y + rounded.h),
        ];
        for (const loss of losses) {
          expect(loss).toBeGreaterThan(-2e-7);
          expect(loss).toBeLessThan(1e-4 + 1e-9);
        }
        expect(roundCrop(rounded)).toEqual(rounded);
        for (const key of ['x', 'y', 'w', 'h'] as const) expect(Number(rounded[key].toFixed(4))).toBe(rounded[key]);
      }),
    );
  });
});

describe('a crop in a turned photo', () => {
  test('lies inside when its corners, turned back, do', () => {
    fc.assert(
      fc.property(photo, degrees, crop, (size, turn, given) => {
        const edges = edgesOf(given, size);
        const far = outside(edges, size, turn);
        fc.pre(Math.abs(far - CORNER_TOLERANCE) > 1e-6);
        expect(isInsidePhoto(edges, size, turn)).toBe(far <= CORNER_TOLERANCE);
      }),
      { numRuns: 500 },
    );
  });

  test('is bound by each edge alone when it is not turned', () => {
    for (const { left, top, right, bottom } of insidePhoto(PHOTO, 0)) {
      expect([left, top, right, bottom].filter((coefficient) => Math.abs(coefficient) > 0.5)).toHaveLength(1);
    }
  });

  test('may be half a pixel outside', () => {
    expect(isInsidePhoto({ left: -0.5, top: 0, right: 4000.5, bottom: 6000 }, PHOTO, 0)).toBe(true);
    expect(isInsidePhoto({ left: -0.51, top: 0, right: 4000, bottom: 6000 }, PHOTO, 0)).toBe(false);
  });
});

describe('largestCentred', () => {
  const shape = fc.constantFrom(2 / 3, 4 / 5, 1, 3 / 2, 16 / 9);

  test('lies inside, has the shape, and is as large as it can be', () => {
    fc.assert(
      fc.property(photo, degrees, shape, (size, turn, wanted) => {
        const edges = largestCentred(size, turn, wanted);
        expect(widthOf(edges) / heightOf(edges)).toBeCloseTo(wanted, 9);
        expect(outside(edges, size, turn)).toBeCloseTo(0, 6);
        expect((edges.left + edges.right) / 2).toBeCloseTo(size.width / 2, 9);
        expect((edges.top + edges.bottom) / 2).toBeCloseTo(size.height / 2, 9);
      }),
    );
  });
});

describe('defaultCrop', () => {
  test('is the whole photo when it is not turned', () => {
    expect(defaultCrop(PHOTO, 0)).toEqual({ x: 0, y: 0, w: 1, h: 1 });
  });

  test('lies inside and keeps the photo’s shape when it is', () => {
    fc.assert(
      fc.property(photo, degrees, (size, turn) => {
        const edges = edgesOf(defaultCrop(size, turn), size);
        expect(isInsidePhoto(edges, size, turn)).toBe(true);
        const lost = 2e-4 * Math.max(size.width, size.height);
        expect(Math.abs(widthOf(edges) - (heightOf(edges) * size.width) / size.height)).toBeLessThan(
          lost * (1 + size.width / size.height),
        );
      }),
    );
  });
});

describe('effectiveEdges', () => {
  test('an edge within a thousandth of the photo’s own becomes it', () => {
    expect(effectiveEdges({ x: 0.001, y: 0.0009, w: 0.9985, h: 0.9982 }, PHOTO, 0)).toEqual({
      left: 0,
      top: 0,
      right: 4000,
      bottom: 6000,
    });
  });

  test('further in it stays', () => {
    const edges = effectiveEdges({ x: 0.0011, y: 0.002, w: 0.9, h: 0.9 }, PHOTO, 0);
    expect(edges.left).toBeCloseTo(4.4, 9);
    expect(edges.top).toBeCloseTo(12, 9);
  });

  test('in a turned photo no edge is the photo’s own', () => {
    expect(effectiveEdges({ x: 0.0005, y: 0, w: 0.5, h: 0.5 }, PHOTO, 1).left).toBeCloseTo(2, 9);
  });
});
