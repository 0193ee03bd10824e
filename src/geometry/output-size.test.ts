import fc from 'fast-check';
import { expect, test } from 'vitest';
import { outputSize, pixelsOf } from './output-size.ts';

const CROP = { width: 3000, height: 4500 };

test('an inch is 25.4 mm', () => {
  expect(pixelsOf({ amount: 25.4, unit: 'mm' }, 300)).toBeCloseTo(300, 9);
  expect(pixelsOf({ amount: 2.54, unit: 'cm' }, 300)).toBeCloseTo(300, 9);
  expect(pixelsOf({ amount: 1, unit: 'in' }, 300)).toBe(300);
  expect(pixelsOf({ amount: 7, unit: 'px' }, 300)).toBe(7);
});

test('an album page of 300 mm at 300 ppi, with bleed', () => {
  const size = outputSize(
    { long: { amount: 300, unit: 'mm' }, ppi: 300, bleed: { amount: 3, unit: 'mm' }, safe: { amount: 5, unit: 'mm' } },
    CROP,
    2 / 3,
  );
  expect(size).toEqual({
    trimmed: { width: 2362, height: 3543 },
    bleed: 35,
    safe: 59,
    inches: expect.closeTo(11.811, 3) as number,
    ppi: 300,
  });
});

test('a named paper, upright and lying', () => {
  const { trimmed } = outputSize({ paper: 'A3', ppi: 150 }, CROP, 297 / 420);
  expect(trimmed).toEqual({ width: 1754, height: 2480 });
  expect(outputSize({ paper: 'A3', ppi: 150 }, CROP, 420 / 297).trimmed).toEqual({ width: 2480, height: 1754 });
});

test('a size in pixels is not of paper, and no size is the crop’s own', () => {
  expect(outputSize({ long: { amount: 2048, unit: 'px' } }, CROP, 1)).toEqual({
    trimmed: { width: 2048, height: 2048 },
    bleed: 0,
    safe: 0,
    ppi: 300,
  });
  expect(outputSize({}, CROP, 2 / 3).trimmed).toEqual(CROP);
});

test('of a long and a short side the one that makes it smaller counts', () => {
  const asked = { long: { amount: 1200, unit: 'px' }, short: { amount: 600, unit: 'px' } } as const;
  expect(outputSize(asked, CROP, 2 / 3).trimmed).toEqual({ width: 600, height: 900 });
  expect(outputSize(asked, CROP, 4).trimmed).toEqual({ width: 1200, height: 300 });
});

test('the picture keeps its shape within half a pixel, and is never nothing', () => {
  const amount = fc.double({ min: 0.001, max: 5000, noNaN: true });
  const unit = fc.constantFrom('px', 'mm', 'cm', 'in');
  fc.assert(
    fc.property(fc.record({ amount, unit }), fc.double({ min: 0.1, max: 10, noNaN: true }), (long, shape) => {
      const { trimmed } = outputSize({ long }, CROP, shape);
      expect(Math.min(trimmed.width, trimmed.height)).toBeGreaterThanOrEqual(1);
      const exact = shape < 1 ? trimmed.height * shape : trimmed.width / shape;
      const side = shape < 1 ? trimmed.width : trimmed.height;
      if (exact > 1) expect(Math.abs(side - exact)).toBeLessThanOrEqual(0.5 + 0.5 * Math.min(shape, 1 / shape) + 1e-6);
    }),
  );
});
