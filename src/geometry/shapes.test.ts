import fc from 'fast-check';
import { expect, test } from 'vitest';
import { diagonalOf, edgesOf, heightOf, rectangleOf, shortSideOf, widthOf } from './shapes.ts';

test('fractions to pixels', () => {
  const edges = edgesOf({ x: 0.1, y: 0.2, w: 0.5, h: 0.25 }, { width: 4000, height: 6000 });
  expect(edges).toEqual({ left: 400, top: 1200, right: 2400, bottom: 2700 });
  expect([widthOf(edges), heightOf(edges), shortSideOf(edges)]).toEqual([2000, 1500, 1500]);
  expect(diagonalOf({ width: 3000, height: 4000 })).toBe(5000);
});

test('pixels and fractions are two ways to say one crop', () => {
  const share = fc.double({ min: -0.5, max: 1.5, noNaN: true });
  const side = fc.integer({ min: 1, max: 20_000 });
  fc.assert(
    fc.property(fc.record({ x: share, y: share, w: share, h: share }), side, side, (crop, width, height) => {
      const back = rectangleOf(edgesOf(crop, { width, height }), { width, height });
      for (const key of ['x', 'y', 'w', 'h'] as const) expect(back[key]).toBeCloseTo(crop[key], 9);
    }),
  );
});
