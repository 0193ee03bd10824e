import { medianOf, type Plane } from './plane.ts';

/** What is usual is seen at every so many pixels. */
const EVERY = 97;

/** Writes the lightness of a row and of the one below, smoothed along the edge: both take nearly the same rows. */
export function smoothTwoRows(plane: Plane, y: number, upper: Float32Array, lower: Float32Array): void {
  const { width, height, data } = plane;
  if (y + 3 >= height) {
    for (let x = 0, at = y * width; x < width; x++, at++) upper[x] = smoothAt(data, width, at);
    return;
  }
  for (let x = 0, at = y * width; x < width; x++, at++) {
    const above = data[at - width]!;
    const here = data[at]!;
    const below = data[at + width]!;
    const below2 = data[at + 2 * width]!;
    upper[x] = smoothed(data[at - 2 * width]!, above, here, below, below2);
    lower[x] = smoothed(above, here, below, below2, data[at + 3 * width]!);
  }
}

/**
 * Writes a row's change from left to right a pixel, and the columns in which it is larger than in those beside them, and
 * at least `least`.
 * @returns how many such columns there are
 */
export function findPeaks(smooth: Float32Array, least: number, across: Float32Array, peaks: Int32Array): number {
  let count = 0;
  // Of the latest columns: what is read once is not read again.
  let [a, b, c, d] = [smooth[0]!, smooth[1]!, smooth[2]!, smooth[3]!];
  // Nothing is larger than what is no number: a step at the picture's side is never a peak.
  let before = NaN;
  let size = NaN;
  for (let x = 4; x < smooth.length; x++) {
    const e = smooth[x]!;
    const step = Math.fround(stepBetween(a, b, d, e));
    const after = Math.abs(step);
    across[x - 2] = step;
    if (size >= least && size >= before && size > after) {
      peaks[count] = x - 3;
      count += 1;
    }
    before = size;
    size = after;
    [a, b, c, d] = [b, c, d, e];
  }
  return count;
}

/** The median size of the steps across, from every few pixels; near the picture's sides a step counts as none. */
export function usualStep({ width, height, data }: Plane): number {
  const sizes: number[] = [];
  for (let at = 0; at < data.length; at += EVERY) {
    const x = at % width;
    const y = (at - x) / width;
    const isInside = x >= 2 && y >= 2 && x < width - 2 && y < height - 2;
    const smooth = (away: number): number => smoothAt(data, width, at + away);
    sizes.push(isInside ? Math.abs(Math.fround(stepBetween(smooth(-2), smooth(-1), smooth(1), smooth(2)))) : 0);
  }
  return medianOf(sizes);
}

function smoothAt(data: Float32Array, width: number, at: number): number {
  const [above2, above] = [data[at - 2 * width]!, data[at - width]!];
  return Math.fround(smoothed(above2, above, data[at]!, data[at + width]!, data[at + 2 * width]!));
}

function smoothed(above2: number, above: number, here: number, below: number, below2: number): number {
  return (above2 + below2 + 4 * (above + below) + 6 * here) / 16;
}

/** From the two columns left and the two right of a place. */
function stepBetween(left2: number, left1: number, right1: number, right2: number): number {
  return (right2 - left2 + 2 * (right1 - left1)) / 8;
}
