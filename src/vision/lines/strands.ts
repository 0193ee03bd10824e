import { leanAt, type FanShape } from './fan-shape.ts';
import type { LeaningLine } from './leaning-line.ts';

/** Pieces of one line, or of lines so near each other that they are one witness (the two edges of a post). */
export type Strand = LeaningLine;

/** Lines nearer to each other than this, as a share of the picture's longer edge, are one witness. */
const APART = 0.02;
/** Posts and walls are not more upright than this (radians), short things less so. */
const BUILT_ERROR = 0.0035;
const SHORT_ERROR = 0.00035;

/** How far something may well be from upright or level by itself: one standard deviation, radians. */
export function builtError(length: number): number {
  return BUILT_ERROR + SHORT_ERROR / length;
}

/** The lines of a fan gathered by where they cross the middle of the picture. */
export function strandsOf(lines: readonly LeaningLine[], fan: FanShape): Strand[] {
  const sorted = lines
    .map((line) => ({ line, crossing: line.across + line.along * Math.tan(leanAt(fan, line)) }))
    .sort((first, second) => first.crossing - second.crossing);
  const groups: LeaningLine[][] = [];
  let start = -Infinity;
  for (const { line, crossing } of sorted) {
    if (crossing - start > APART) {
      groups.push([]);
      start = crossing;
    }
    groups.at(-1)!.push(line);
  }
  return groups.map(strandOf);
}

function strandOf(lines: readonly LeaningLine[]): Strand {
  let total = 0;
  let across = 0;
  let along = 0;
  let lean = 0;
  let length = 0;
  let longest = 0;
  let least = Infinity;
  for (const line of lines) {
    const weight = line.length / (line.error ** 2 + builtError(line.length) ** 2);
    total += weight;
    across += weight * line.across;
    along += weight * line.along;
    lean += weight * line.lean;
    length += line.length;
    longest = Math.max(longest, line.length);
    least = Math.min(least, line.error);
  }
  return {
    across: across / total,
    along: along / total,
    lean: lean / total,
    length,
    error: Math.hypot(least, builtError(longest)),
  };
}
