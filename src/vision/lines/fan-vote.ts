import { DEGREE, leanAt, MOST_LEAN, type FanShape } from './fan-shape.ts';
import { fitFan, MOST_CONVERGENCE, USUAL_CONVERGENCE, type Fan } from './fan.ts';
import { chanceOf } from './chance.ts';
import type { LeaningLine } from './leaning-line.ts';
import { builtError } from './strands.ts';

const LEAN_STEP = 0.1 * DEGREE;
const CONVERGENCE_STEP = 0.05;
const LEANS = Math.round((2 * MOST_LEAN) / LEAN_STEP) + 1;
/** Lines at the picture's side lean by so much more than its middle. */
const MOST_LEAN_OF_LINE = MOST_LEAN + 8 * DEGREE;
/** Pictures are mostly almost level: one standard deviation. */
const USUAL_LEAN = 6 * DEGREE;
/** What an unusual convergence, or lean, is still worth. */
const UNUSUAL_CONVERGENCE = 0.4;
const UNUSUAL_LEAN = 0.3;
/** What each lean that is asked for is worth. */
const WORTH_OF_LEAN = Float64Array.from({ length: LEANS }, (_, at) => {
  return UNUSUAL_LEAN + (1 - UNUSUAL_LEAN) * likely(at * LEAN_STEP - MOST_LEAN, USUAL_LEAN);
});
/** Another lean is one that is farther away than this. */
const ELSEWHERE = 1.2 * DEGREE;

/** The fan that most of the lines belong to, long ones before short ones; undefined without any. */
export function strongestFan(lines: readonly LeaningLine[]): Fan | undefined {
  const near = lines.filter(({ lean }) => Math.abs(lean) < MOST_LEAN_OF_LINE);
  if (near.length === 0) return undefined;
  const { rival, ...start } = vote(near);
  const fan = fitFan(near, start);
  return { ...fan, rival, chance: chanceOf(near, fan) };
}

function vote(lines: readonly LeaningLine[]): FanShape & Pick<Fan, 'rival'> {
  let best: { weight: number; at: number; convergence: number; weights: Float64Array } = {
    weight: -1,
    at: 0,
    convergence: 0,
    weights: new Float64Array(LEANS),
  };
  const voters = lines.map(voterOf);
  const steps = Math.round(MOST_CONVERGENCE / CONVERGENCE_STEP);
  for (let step = -steps; step <= steps; step++) {
    const convergence = step * CONVERGENCE_STEP;
    const weights = weightsOfLeans(voters, convergence);
    for (let at = 0; at < weights.length; at++) {
      const weight = weights[at]!;
      if (weight > best.weight) best = { weight, at, convergence, weights };
    }
  }
  const elsewhere = best.weights.filter((_, at) => Math.abs(at - best.at) * LEAN_STEP > ELSEWHERE);
  const rival = best.weight > 0 ? Math.max(...elsewhere) / best.weight : 1;
  return { lean: best.at * LEAN_STEP - MOST_LEAN, convergence: best.convergence, rival };
}

interface Voter {
  readonly line: LeaningLine;
  /** One standard deviation of the line's lean, in the steps that are counted. */
  readonly spread: number;
  readonly weight: number;
}

function voterOf(line: LeaningLine): Voter {
  const spread = Math.hypot(line.error, builtError(line.length)) / LEAN_STEP;
  return { line, spread, weight: line.length ** 1.5 };
}

/** For each lean of the picture the weight of the lines that say so, if they converge like this. */
function weightsOfLeans(voters: readonly Voter[], convergence: number): Float64Array {
  const weights = new Float64Array(LEANS);
  for (const { line, spread, weight } of voters) {
    const centre = (line.lean - leanAt({ lean: 0, convergence }, line) + MOST_LEAN) / LEAN_STEP;
    const last = Math.min(LEANS - 1, Math.floor(centre + 3 * spread));
    for (let at = Math.max(0, Math.ceil(centre - 3 * spread)); at <= last; at++) {
      weights[at]! += weight * likely(at - centre, spread);
    }
  }
  const converging = UNUSUAL_CONVERGENCE + (1 - UNUSUAL_CONVERGENCE) * likely(convergence, USUAL_CONVERGENCE);
  return weights.map((weight, at) => weight * converging * WORTH_OF_LEAN[at]!);
}

/** The height of a bell curve, 1 at its middle. */
function likely(off: number, spread: number): number {
  return Math.exp(-0.5 * (off / spread) ** 2);
}
