import { medianOf, type Plane } from './plane.ts';

/** What is usual is seen at every so many pixels. */
const EVERY = 97;

/** Writes a row's lightness, smoothed along the edge. */
export function smoothRow({ width, data }: Plane, y: number, smooth: Float32Array): void {
  for (let x = 0, at = y * width; x < width; x++, at++) smooth[x] = smoothAt(data, width, at);
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
  const beside = data[at - width]! + data[at + width]!;
  return Math.fround((data[at - 2 * width]! + data[at + 2 * width]! + 4 * beside + 6 * data[at]!) / 16);
}

/** From the two columns left and the two right of a place. */
function stepBetween(left2: number, left1: number, right1: number, right2: number): number {
  return (right2 - left2 + 2 * (right1 - left1)) / 8;
}
