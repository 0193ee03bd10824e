import type { Size } from '../../geometry/shapes.ts';
import { unturnPoint } from '../../geometry/turning.ts';
import type { Pixels } from '../../photos/decode.ts';
import type { Grid } from '../image/grid.ts';
import type { Pyramid } from '../image/pyramid.ts';
import { giveMemoryBack, takeMemory } from '../image/spare-memory.ts';
import { DEGREE } from './fan-shape.ts';

/** One number a pixel, row by row from the top. */
export interface Plane extends Size {
  readonly data: Float32Array;
}

/** 1 where somebody is, else 0: one number a pixel, row by row from the top. */
export interface Cover extends Size {
  readonly data: Uint8Array;
}

/** The share of red, green and blue in how light a pixel looks (ITU-R BT.601, section 2.5.1). */
const [RED, GREEN, BLUE] = [0.299, 0.587, 0.114] as const;

/**
 * How light the picture is, 0 to 255, at most `longEdge` pixels along its longer edge; never enlarged.
 * @param degrees by which the picture is turned about its centre first, clockwise as seen
 */
export function lightnessOf(picture: Pyramid, longEdge: number, degrees = 0): Plane {
  const step = Math.max(1, Math.max(picture.width, picture.height) / longEdge);
  const width = Math.max(1, Math.round(picture.width / step));
  const height = Math.max(1, Math.round(picture.height / step));
  // The same step both ways: angles stay what they are.
  const corner = { x: (picture.width - width * step) / 2, y: (picture.height - height * step) / 2 };
  const origin = unturnPoint(corner, picture, degrees);
  const across = { x: step * Math.cos(degrees * DEGREE), y: -step * Math.sin(degrees * DEGREE) };
  const grid = { origin, across, down: { x: -across.y, y: across.x }, width, height };
  const pixels = picture.levelOn(grid);
  return { width, height, data: pixels ? lightnessOfPixels(pixels) : sampledLightness(picture, grid) };
}

function lightnessOfPixels({ data, width, height }: Pixels): Float32Array {
  const result = new Float32Array(width * height);
  for (let at = 0, from = 0; at < result.length; at++, from += 3) {
    result[at] = RED * data[from]! + GREEN * data[from + 1]! + BLUE * data[from + 2]!;
  }
  return result;
}

function sampledLightness(picture: Pyramid, grid: Grid): Float32Array {
  const samples = takeMemory(3 * grid.width * grid.height);
  picture.writeUnits(grid, 'drawn-out', 1, samples);
  const result = new Float32Array(grid.width * grid.height);
  for (let at = 0, from = 0; at < result.length; at++, from += 3) {
    result[at] = RED * samples[from]! + GREEN * samples[from + 1]! + BLUE * samples[from + 2]!;
  }
  giveMemoryBack(samples);
  return result;
}

/** Rows and columns changed over. */
export function transposed({ width, height, data }: Plane): Plane {
  const result = new Float32Array(data.length);
  for (let y = 0, from = 0; y < height; y++) {
    for (let x = 0, to = y; x < width; x++, from++, to += height) result[to] = data[from]!;
  }
  return { width: height, height: width, data: result };
}

/** Each pixel the mean of four; a last odd row or column is left out. */
export function halved({ width, height, data }: Plane): Plane {
  const halfWidth = Math.max(1, width >> 1);
  const halfHeight = Math.max(1, height >> 1);
  const result = new Float32Array(halfWidth * halfHeight);
  const right = width > 1 ? 1 : 0;
  const below = height > 1 ? width : 0;
  for (let y = 0, to = 0; y < halfHeight; y++) {
    for (let x = 0, from = 2 * y * width; x < halfWidth; x++, from += 2, to++) {
      result[to] = (data[from]! + data[from + right]! + data[from + below]! + data[from + below + right]!) / 4;
    }
  }
  return { width: halfWidth, height: halfHeight, data: result };
}

/** Half as large in the same way: somebody is where anybody is in one of the four pixels. */
export function halvedCover({ width, height, data }: Cover): Cover {
  const halfWidth = Math.max(1, width >> 1);
  const halfHeight = Math.max(1, height >> 1);
  const result = new Uint8Array(halfWidth * halfHeight);
  const right = width > 1 ? 1 : 0;
  const below = height > 1 ? width : 0;
  for (let y = 0, to = 0; y < halfHeight; y++) {
    for (let x = 0, from = 2 * y * width; x < halfWidth; x++, from += 2, to++) {
      result[to] = data[from]! | data[from + right]! | data[from + below]! | data[from + below + right]!;
    }
  }
  return { width: halfWidth, height: halfHeight, data: result };
}

/** The middle value; 0 of none. */
export function medianOf(values: readonly number[]): number {
  const sorted = new Float64Array(values).sort();
  return sorted[sorted.length >> 1] ?? 0;
}
