import { isSameShape } from './ratio.ts';

/** Shapes of papers and screens that have a name by their numbers, short side first (common practice, no source). */
const KNOWN: readonly (readonly [number, number])[] = [
  [1, 1],
  [9, 10],
  [5, 6],
  [4, 5],
  [11, 14],
  [3, 4],
  [5, 7],
  [2, 3],
  [5, 8],
  [9, 16],
  [1, 2],
  [1, 3],
];
/** A shape as a photographer says it: `2:3`, `3:2`, or `1:1.41` when it is no paper's. Both sides are over 0. */
export function shapeWords(width: number, height: number): string {
  const upright = Math.min(width, height) / Math.max(width, height);
  const known = KNOWN.find(([short, long]) => isSameShape(upright, short / long));
  if (known) return width <= height ? `${known[0]}:${known[1]}` : `${known[1]}:${known[0]}`;
  const ratio = width / height;
  return ratio >= 1 ? `${ratio.toFixed(2)}:1` : `1:${(1 / ratio).toFixed(2)}`;
}
