import { giveMemoryBack, takeMemory } from '../image/spare-memory.ts';
import { medianOf, type Plane } from './plane.ts';

/** Places, one a row at most, at which the picture changes from left to right: a more or less upright edge. Plane pixels. */
export interface EdgeChain {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** Steps in lightness below this a pixel are never an edge. */
const LEAST_STEP = 0.8;
/** In a restless picture an edge is this many times the usual step. */
const OVER_USUAL = 2.5;
/** The steepest lean of an edge (across over along) that is followed. */
const STEEPEST = 0.5;
/** Rows an edge may skip. */
const LARGEST_GAP = 2;

/**
 * The upright edges of a picture, each followed from row to row, between pixels. Where `cover` is not 0 nothing is
 * looked for.
 */
export function uprightChains(plane: Plane, cover: Plane, leastRows: number): EdgeChain[] {
  const { width, height } = plane;
  const across = stepsAcross(plane);
  const least = Math.max(LEAST_STEP, OVER_USUAL * usualSize(across));
  const chains: { x: number[]; y: number[] }[] = [];
  // Of the latest rows: which chain ends at a column, 0 for none, negative where the step goes down.
  const ends = Array.from({ length: LARGEST_GAP + 2 }, () => new Int32Array(width));
  for (let y = 2; y < height - 2; y++) {
    const here = ends[y % ends.length]!.fill(0);
    for (let x = 3; x < width - 3; x++) {
      const at = y * width + x;
      const step = across[at]!;
      const size = Math.abs(step);
      if (size < least || cover.data[at]! !== 0) continue;
      const before = Math.abs(across[at - 1]!);
      const after = Math.abs(across[at + 1]!);
      if (size < before || size <= after || isTooSteep(plane, at, size)) continue;
      const place = x + 0.5 + (0.5 * (before - after)) / (before - 2 * size + after);
      const sign = step > 0 ? 1 : -1;
      const chain = sign * endNear(ends, y, x, sign);
      if (chain === 0) {
        chains.push({ x: [place], y: [y + 0.5] });
        here[x] = sign * chains.length;
      } else {
        chains[chain - 1]!.x.push(place);
        chains[chain - 1]!.y.push(y + 0.5);
        here[x] = sign * chain;
      }
    }
  }
  giveMemoryBack(across);
  return chains.filter(({ y }) => y.at(-1)! - y[0]! >= leastRows);
}

/** The chain that ends nearest above, taken from its place so that it goes on once only. */
function endNear(ends: readonly Int32Array[], y: number, x: number, sign: number): number {
  for (let gap = 1; gap <= LARGEST_GAP + 1; gap++) {
    const row = ends[(y - gap + ends.length) % ends.length]!;
    for (const column of [x, x - 1, x + 1]) {
      const chain = row[column]!;
      if (chain * sign <= 0) continue;
      row[column] = 0;
      return chain;
    }
  }
  return 0;
}

/** The change from left to right a pixel, smoothed along the edge. */
function stepsAcross({ width, height, data }: Plane): Float32Array {
  const steps = takeMemory(data.length);
  for (let row = 2 * width; row < (height - 2) * width; row += width) {
    // Of the five latest columns, smoothed.
    let [a, b, c, d, e] = [0, 0, 0, 0, 0];
    for (let x = 0, at = row; x < width; x++, at++) {
      [a, b, c, d] = [b, c, d, e];
      const beside = data[at - width]! + data[at + width]!;
      e = Math.fround((data[at - 2 * width]! + data[at + 2 * width]! + 4 * beside + 6 * data[at]!) / 16);
      if (x >= 4) steps[at - 2] = (e - a + 2 * (d - b)) / 8;
    }
  }
  return steps;
}

function isTooSteep({ width, data }: Plane, at: number, size: number): boolean {
  const below = data[at + width - 1]! + 2 * data[at + width]! + data[at + width + 1]!;
  const above = data[at - width - 1]! + 2 * data[at - width]! + data[at - width + 1]!;
  return Math.abs(below - above) / 8 > STEEPEST * size;
}

/** The median of the sizes, from every few values. */
function usualSize(values: Float32Array): number {
  const some: number[] = [];
  for (let at = 0; at < values.length; at += 97) some.push(Math.abs(values[at]!));
  return medianOf(some);
}
