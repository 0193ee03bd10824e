import { DEGREE, leanAt, type FanShape } from './fan.ts';
import type { LeaningLine } from './leaning-line.ts';
import { strandsOf } from './strands.ts';

/** Lines that lean otherwise than the fan by up to this may have joined it by chance. */
const AROUND = 8 * DEGREE;
/** Nothing is told closer than this. */
const CLOSEST = 0.15 * DEGREE;
const WIDEST = 0.9 * DEGREE;
/** All lines are asked, and once more only those at least this long: small things lie about in every direction. */
const LENGTHS = [0, 0.08, 0.15] as const;

/**
 * How many fans as good as this one are to be expected among as many lines that lean at random (the number of false
 * alarms of Moisan and Stival, "A probabilistic criterion to detect rigid point matches", 2004), as its logarithm to the
 * base 10: the lower, the surer.
 */
export function chanceOf(lines: readonly LeaningLine[], fan: FanShape): number {
  const around = lines.filter((line) => Math.abs(line.lean - leanAt(fan, line)) < AROUND);
  const chances = LENGTHS.map((least) => {
    const strands = strandsOf(
      around.filter(({ length }) => length >= least),
      fan,
    );
    return leastChance(strands, fan);
  });
  return Math.min(...chances) + Math.log10(LENGTHS.length);
}

/** The least over how closely the lines are held to the fan. */
function leastChance(strands: readonly LeaningLine[], fan: FanShape): number {
  const count = strands.length;
  const offs = strands.map((strand) => Math.abs(strand.lean - leanAt(fan, strand))).sort((a, b) => a - b);
  const places = strands.map(({ across }) => across);
  const reach = count === 0 ? 0 : (Math.max(...places) - Math.min(...places)) / 2;
  let least = Infinity;
  for (let near = 2; near <= count; near++) {
    const off = Math.max(CLOSEST, offs[near - 1]!);
    if (off > WIDEST) break;
    // One line sets the lean; convergences that differ by less than `off` at the outermost line are the same.
    const tests = count * (1 + (2 * Math.abs(fan.convergence) * reach) / off);
    const others = logChoose(count - 1, near - 1) + (near - 1) * Math.log10(off / AROUND);
    // Every closeness that was tried is one more test.
    least = Math.min(least, Math.log10(tests * count) + others);
  }
  return least;
}

/** Of the ways to choose `some` out of `all`, the logarithm to the base 10. */
function logChoose(all: number, some: number): number {
  let sum = 0;
  for (let index = 1; index <= some; index++) sum += Math.log10((all - some + index) / index);
  return sum;
}
