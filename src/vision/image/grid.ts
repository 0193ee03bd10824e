import type { Point } from '../../geometry/shapes.ts';

/** Where the pixels of a sampled picture lie in the photo: each one step `across` or `down` further. Photo pixels. */
export interface Grid {
  /** Of the sampled picture's top left corner (not of its first pixel's centre). */
  readonly origin: Point;
  readonly across: Point;
  readonly down: Point;
  readonly width: number;
  readonly height: number;
}

/** A square of the photo that may be turned; `angle` in radians, clockwise as seen, 0 = upright. Photo pixels. */
export interface Region {
  readonly centre: Point;
  readonly side: number;
  readonly angle: number;
}

export function gridOfRegion({ centre, side, angle }: Region, pixels: number): Grid {
  const step = side / pixels;
  const across = { x: Math.cos(angle) * step, y: Math.sin(angle) * step };
  const down = { x: -across.y, y: across.x };
  const half = pixels / 2;
  const origin = { x: centre.x - half * (across.x + down.x), y: centre.y - half * (across.y + down.y) };
  return { origin, across, down, width: pixels, height: pixels };
}

/** The same pixels with left and right changed over. */
export function mirrored(grid: Grid): Grid {
  const { origin, across, width } = grid;
  return {
    ...grid,
    origin: { x: origin.x + width * across.x, y: origin.y + width * across.y },
    across: { x: -across.x, y: -across.y },
  };
}

/** The photo's place of a place in the sampled picture (its pixels, corner of the first one is 0, 0). */
export function placeInPhoto(grid: Grid, x: number, y: number): Point {
  return {
    x: grid.origin.x + x * grid.across.x + y * grid.down.x,
    y: grid.origin.y + x * grid.across.y + y * grid.down.y,
  };
}
