import { alikeInMirror, columnsOf, structureOfPair, type Columns } from './mirror-columns.ts';
import type { Cover, Plane } from './plane.ts';

/** An axis nearer to a side than this, as a share of the width, has too little beside it to be told. */
const LEAST_WING = 0.25;
/** Distances from an axis are counted in bands so wide, in pixels. */
const BAND = 4;
/** Less than this share of the picture's structure is what calculating leaves of nothing. */
const NOTHING = 1e-9;

/** How well an upright axis, in pixels from the left, is one of symmetry. */
export interface Axis {
  readonly x: number;
  /** How alike both sides are, −1 to 1; 1 when each is the mirror image of the other. */
  readonly alike: number;
  /** Share of the picture's structure that has a counterpart to be compared with. */
  readonly compared: number;
  /** How evenly that structure lies over the distances from the axis: 1 everywhere alike, 0 at one distance alone. */
  readonly spread: number;
  /** How much of it there is, a pixel of the picture. */
  readonly structure: number;
}

/**
 * Every upright axis with enough beside it, half a pixel apart; none at all unless both sides of one are so alike.
 * @param alike the least that is wanted of the best one
 */
export function axesOf(plane: Plane, cover: Cover, alike: number): Axis[] {
  const columns = columnsOf(plane, cover);
  const { width } = plane;
  const places: number[] = [];
  for (let twice = Math.ceil(2 * LEAST_WING * width); twice <= 2 * (1 - LEAST_WING) * width; twice++) {
    places.push(twice / 2);
  }
  // Most pictures have no such axis, and that shows long before everything has been compared.
  if (!places.some((x) => axisAt(x, columns, alike) !== undefined)) return [];
  return places.flatMap((x) => axisAt(x, columns, -1) ?? []);
}

/** Holds both sides of an axis against each other; undefined where there is nothing to compare, or less is alike. */
function axisAt(x: number, columns: Columns, leastAlike: number): Axis | undefined {
  const { width, height, structure: all } = columns;
  // Two columns that mirror each other add up to this.
  const sum = 2 * x - 1;
  const first = Math.max(0, sum - (width - 1));
  const bands = new Float64Array(Math.ceil((sum - 2 * first) / (2 * BAND)) + 1);
  let energy = 0;
  for (let left = first, right = sum - first; left < right; left++, right--) {
    const here = structureOfPair(columns, left, right);
    energy += here;
    bands[((right - left) / (2 * BAND)) | 0]! += here;
  }
  if (energy <= NOTHING * all) return undefined;
  let alike = 0;
  let rest = energy;
  for (let left = first, right = sum - first; left < right; left++, right--) {
    alike += alikeInMirror(columns, left, right);
    rest -= structureOfPair(columns, left, right);
    // Not even if all the rest were the same.
    if (alike + rest < leastAlike * energy) return undefined;
  }
  const squares = bands.reduce((total, band) => total + band * band, 0);
  return {
    x,
    alike: alike / energy,
    compared: (2 * energy) / all,
    spread: (energy * energy) / (bands.length * squares),
    structure: energy / (width * height),
  };
}
