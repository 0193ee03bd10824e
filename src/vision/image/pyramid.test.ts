import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../geometry/shapes.ts';
import type { Pixels } from '../../photos/decode.ts';
import { gridOfRegion, mirrored, placeInPhoto, type Grid } from './grid.ts';
import { Pyramid } from './pyramid.ts';

/** Red grows to the right, green downwards, so that a sample says where it was taken. */
function ramp(width: number, height: number): Pyramid {
  const data = new Uint8Array(width * height * 3);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) data.set([x, y, 100], 3 * (y * width + x));
  return new Pyramid({ width, height, data });
}

const wholeGrid = (width: number, height: number): Grid => ({
  origin: { x: 0, y: 0 },
  across: { x: 1, y: 0 },
  down: { x: 0, y: 1 },
  width,
  height,
});

/** Bilinear interpolation as the textbooks have it: along the rows above and below, then between these. */
function between({ data, width, height }: Pixels, place: Point, channel: number): number {
  const x = Math.min(Math.max(place.x - 0.5, 0), width - 1);
  const y = Math.min(Math.max(place.y - 0.5, 0), height - 1);
  const [left, top] = [Math.floor(x), Math.floor(y)];
  const [right, bottom] = [Math.ceil(x), Math.ceil(y)];
  const pixel = (column: number, row: number): number => data[3 * (row * width + column) + channel]!;
  const above = pixel(left, top) + (x - left) * (pixel(right, top) - pixel(left, top));
  const below = pixel(left, bottom) + (x - left) * (pixel(right, bottom) - pixel(left, bottom));
  return above + (y - top) * (below - above);
}

const regions = fc.record({
  centre: fc.record({
    x: fc.double({ min: 90, max: 110, noNaN: true }),
    y: fc.double({ min: 90, max: 110, noNaN: true }),
  }),
  side: fc.double({ min: 20, max: 100, noNaN: true }),
  angle: fc.double({ min: -3.2, max: 3.2, noNaN: true }),
});

describe('Pyramid', () => {
  it('gives the picture itself on its own grid', () => {
    expect(Array.from(ramp(3, 2).sample(wholeGrid(3, 2)))).toEqual([
      0, 0, 100, 1, 0, 100, 2, 0, 100, 0, 1, 100, 1, 1, 100, 2, 1, 100,
    ]);
  });

  it('samples where the grid says, turned and mirrored or not, also from smaller levels', () => {
    const picture = ramp(200, 200);
    fc.assert(
      fc.property(regions, fc.integer({ min: 8, max: 64 }), fc.boolean(), (region, pixels, isMirrored) => {
        const grid = isMirrored ? mirrored(gridOfRegion(region, pixels)) : gridOfRegion(region, pixels);
        const samples = picture.sample(grid);
        const column = Math.floor(pixels / 3);
        const row = Math.floor(pixels / 2);
        const place = placeInPhoto(grid, column + 0.5, row + 0.5);
        const at = 3 * (row * pixels + column);
        // Bytes are rounded once a level.
        expect(Math.abs(samples[at]! - (place.x - 0.5))).toBeLessThan(1.5);
        expect(Math.abs(samples[at + 1]! - (place.y - 0.5))).toBeLessThan(1.5);
      }),
    );
  });

  it('lies between the four pixels around a place, those at the edge drawn out', () => {
    const [width, height] = [7, 5];
    const pixels = fc.uint8Array({ minLength: 3 * width * height, maxLength: 3 * width * height });
    const around = fc.record({
      centre: fc.record({
        x: fc.double({ min: -1, max: 8, noNaN: true }),
        y: fc.double({ min: -1, max: 6, noNaN: true }),
      }),
      side: fc.double({ min: 1, max: 9, noNaN: true }),
      angle: fc.double({ min: -3.2, max: 3.2, noNaN: true }),
    });
    fc.assert(
      fc.property(pixels, around, (data, region) => {
        const grid = gridOfRegion(region, 6);
        const samples = new Pyramid({ width, height, data }).sample(grid, 'drawn-out');
        for (let at = 0; at < samples.length; at++) {
          const pixel = Math.floor(at / 3);
          const place = placeInPhoto(grid, (pixel % 6) + 0.5, Math.floor(pixel / 6) + 0.5);
          expect(samples[at]).toBeCloseTo(between({ width, height, data }, place, at % 3), 3);
        }
      }),
    );
  });

  it('writes the same as whole numbers, or divided, also at the edge and beyond it', () => {
    const picture = ramp(40, 30);
    const around = fc.record({
      centre: fc.record({
        x: fc.double({ min: -10, max: 50, noNaN: true }),
        y: fc.double({ min: -10, max: 40, noNaN: true }),
      }),
      side: fc.double({ min: 5, max: 80, noNaN: true }),
      angle: fc.double({ min: -3.2, max: 3.2, noNaN: true }),
    });
    fc.assert(
      fc.property(around, fc.constantFrom('black' as const, 'drawn-out' as const), (region, beyond) => {
        const grid = gridOfRegion(region, 9);
        const samples = picture.sample(grid, beyond);
        const bytes = new Int32Array(samples.length).fill(-1);
        picture.writeBytes(grid, beyond, bytes);
        expect(Array.from(bytes)).toEqual(Array.from(samples, (value) => Math.floor(value + 0.5)));
        const units = new Float32Array(samples.length).fill(-1);
        picture.writeUnits(grid, beyond, 255, units);
        expect(units).toEqual(samples.map((value) => value / 255));
      }),
    );
  });

  it('is black outside, or goes on with the pixels at the edge', () => {
    const outside: Grid = { ...wholeGrid(2, 1), origin: { x: 1, y: 10 } };
    expect(Array.from(ramp(4, 3).sample(outside))).toEqual([0, 0, 0, 0, 0, 0]);
    expect(Array.from(ramp(4, 3).sample(outside, 'drawn-out'))).toEqual([1, 2, 100, 2, 2, 100]);
  });
});
