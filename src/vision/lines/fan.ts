import { DEGREE, leanAt, type FanShape } from './fan-shape.ts';
import type { LeaningLine } from './leaning-line.ts';
import { strandsOf, type Strand } from './strands.ts';

export interface Fan extends FanShape {
  /** One standard deviation of `lean`. */
  readonly leanError: number;
  /** One standard deviation of `convergence`. */
  readonly convergenceError: number;
  /** Lines of the fan that lie apart from each other. */
  readonly strands: readonly Strand[];
  /** The weight of the best lean elsewhere, as a share of this one's: near 1 it might as well have been another. */
  readonly rival: number;
  /** How many such fans chance makes, as a logarithm (see chance.ts). */
  readonly chance: number;
}

export type FittedFan = Omit<Fan, 'rival' | 'chance'>;
type FitOfFan = Omit<FittedFan, 'strands'>;

export const MOST_CONVERGENCE = 0.5;
/** Cameras point up or down by a few degrees, so uprights converge a little: one standard deviation. */
export const USUAL_CONVERGENCE = 0.08;

const ROUNDS = 6;
/** How far a line of the fan may be off, in the first rounds and in the last. */
const WIDE = 1.5 * DEGREE;
const NARROW = 0.9 * DEGREE;
/** From here on a strand counts less and less. */
const DOUBTFUL = 0.6 * DEGREE;

/** Fits the fan near `start` to the lines that belong to it. */
export function fitFan(lines: readonly LeaningLine[], start: FanShape): FittedFan {
  let fit: FitOfFan = { ...start, leanError: Infinity, convergenceError: Infinity };
  let strands: readonly Strand[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const limit = round < 2 ? WIDE : NARROW;
    const members = lines.filter((line) => {
      return Math.abs(line.lean - leanAt(fit, line)) < limit + Math.min(2 * line.error, limit / 2);
    });
    strands = strandsOf(members, fit);
    fit = solved(strands, fit);
  }
  return { ...fit, strands };
}

/** One step of weighted least squares, with the usual convergence as one more observation. */
function solved(strands: readonly Strand[], fit: FanShape): FitOfFan {
  const usual = 1 / USUAL_CONVERGENCE ** 2;
  let leanTerm = 1e-6;
  let mixedTerm = 0;
  let convergenceTerm = usual;
  let leanSide = 0;
  let convergenceSide = -fit.convergence * usual;
  let squares = 0;
  for (const strand of strands) {
    const off = strand.lean - leanAt(fit, strand);
    const change = -(strand.across * Math.cos(fit.lean) + strand.along * Math.sin(fit.lean));
    const weight = 1 / (strand.error ** 2 * (1 + (off / DOUBTFUL) ** 2));
    squares += (off / strand.error) ** 2;
    leanTerm += weight;
    mixedTerm += weight * change;
    convergenceTerm += weight * change ** 2;
    leanSide += weight * off;
    convergenceSide += weight * change * off;
  }
  const determinant = leanTerm * convergenceTerm - mixedTerm ** 2;
  const lean = fit.lean + (convergenceTerm * leanSide - mixedTerm * convergenceSide) / determinant;
  const convergence = fit.convergence + (leanTerm * convergenceSide - mixedTerm * leanSide) / determinant;
  // Lines that agree worse than they should are all known worse than they say.
  const worse = Math.max(1, Math.sqrt(squares / Math.max(1, strands.length - 1)));
  return {
    lean,
    convergence: Math.max(-MOST_CONVERGENCE, Math.min(MOST_CONVERGENCE, convergence)),
    leanError: worse * Math.sqrt(convergenceTerm / determinant),
    convergenceError: worse * Math.sqrt(leanTerm / determinant),
  };
}
