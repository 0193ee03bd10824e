import { DEGREE, leanAt, type FanShape } from './fan-shape.ts';
import type { LeaningLine } from './leaning-line.ts';
import { strandsOf, type Strand } from './strands.ts';

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
  const chances = LENGTHS.map((least) => {
    const long = lines.filter(({ length }) => length >= least);
    const members = long.filter((line) => Math.abs(offOf(line, fan)) < WIDEST);
    const others = long.filter((line) => {
      const off = Math.abs(offOf(line, fan));
      return off >= WIDEST && off < AROUND;
    });
    return leastChance(strandsOf(members, fan), strandsOf(others, fan).length, fan);
  });
  return Math.min(...chances) + Math.log10(LENGTHS.length);
}

function offOf(line: LeaningLine, fan: FanShape): number {
  return line.lean - leanAt(fan, line);
}

/** The least over how closely the strands are held to the fan; `others` lean otherwise. */
function leastChance(members: readonly Strand[], others: number, fan: FanShape): number {
  const count = members.length + others;
  const offs = members.map((strand) => Math.abs(offOf(strand, fan))).sort((first, second) => first - second);
  const places = members.map(({ across }) => across);
  const reach = members.length === 0 ? 0 : (Math.max(...places) - Math.min(...places)) / 2;
  let least = Infinity;
  for (let near = 2; near <= members.length; near++) {
    const off = Math.max(CLOSEST, offs[near - 1]!);
    // One line sets the lean; convergences that differ by less than `off` at the outermost line are the same. Every
    // closeness that was tried is one more test.
    const tests = count ** 2 * (1 + (2 * Math.abs(fan.convergence) * reach) / off);
    const chance = Math.log10(tests) + logChoose(count - 1, near - 1) + (near - 1) * Math.log10(off / AROUND);
    least = Math.min(least, chance);
  }
  return least;
}

/** Of the ways to choose `some` out of `all`, the logarithm to the base 10. */
function logChoose(all: number, some: number): number {
  let sum = 0;
  for (let index = 1; index <= some; index++) sum += Math.log10((all - some + index) / index);
  return sum;
}
