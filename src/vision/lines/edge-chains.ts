import { findPeaks, smoothTwoRows, usualStep } from './edge-steps.ts';
import type { Plane } from './plane.ts';

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
 * The upright edges of a picture, each followed from row to row, between pixels.
 * @param isCovered whether nothing is looked for at a pixel
 */
export function uprightChains(
  plane: Plane,
  isCovered: (x: number, y: number) => boolean,
  leastRows: number,
): EdgeChain[] {
  const { width, height } = plane;
  const least = Math.max(LEAST_STEP, OVER_USUAL * usualStep(plane));
  const chains: { x: number[]; y: number[] }[] = [];
  // Of the latest rows: which chain ends at a column, 0 for none, negative where the step goes down.
  const ends = Array.from({ length: LARGEST_GAP + 2 }, () => new Int32Array(width));
  // Of a row or two only, so that they stay in the processor's cache.
  const even = new Float32Array(width);
  const odd = new Float32Array(width);
  const across = new Float32Array(width);
  const peaks = new Int32Array(width);
  for (let y = 2; y < height - 2; y++) {
    const here = ends[y % ends.length]!.fill(0);
    if (y % 2 === 0) smoothTwoRows(plane, y, even, odd);
    const count = findPeaks(y % 2 === 0 ? even : odd, least, across, peaks);
    for (let peak = 0; peak < count; peak++) {
      const x = peaks[peak]!;
      const step = across[x]!;
      const size = Math.abs(step);
      if (isTooSteep(plane, y * width + x, size) || isCovered(x, y)) continue;
      const before = Math.abs(across[x - 1]!);
      const after = Math.abs(across[x + 1]!);
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
  return chains.filter(({ y }) => y.at(-1)! - y[0]! >= leastRows);
}

/** The chain that ends nearest above, taken from its place so that it goes on once only. */
function endNear(ends: readonly Int32Array[], y: number, x: number, sign: number): number {
  for (let gap = 1; gap <= LARGEST_GAP + 1; gap++) {
    const row = ends[(y - gap + ends.length) % ends.length]!;
    const column = row[x]! * sign > 0 ? x : row[x - 1]! * sign > 0 ? x - 1 : x + 1;
    const chain = row[column]!;
    if (chain * sign <= 0) continue;
    row[column] = 0;
    return chain;
  }
  return 0;
}

function isTooSteep({ width, data }: Plane, at: number, size: number): boolean {
  const below = data[at + width - 1]! + 2 * data[at + width]! + data[at + width + 1]!;
  const above = data[at - width - 1]! + 2 * data[at - width]! + data[at - width + 1]!;
  return Math.abs(below - above) / 8 > STEEPEST * size;
}
