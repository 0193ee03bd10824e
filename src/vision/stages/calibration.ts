import type { BodyPoint } from '../../people/points.ts';

/** What speaks for a point in the picture. Distances are shares of the person's size. */
export interface Agreement {
  /** Mean score of the single-person model's looks. */
  readonly score: number;
  /** Mean distance of the two looks furthest from the fused place. */
  readonly lookSpread: number;
  /** Distance of the whole-body model's vote from the fused place. */
  readonly wholeBodyApart: number;
  /** The whole-body model's own score: the lesser of visibility and presence. */
  readonly wholeBodyScore: number;
}

/** What speaks for a point beyond the photo's edge. Distances are shares of the person's size. */
export interface AgreementBeyond {
  /** Score of the single-person model's look at the extended picture. */
  readonly score: number;
  /** Distance between the two models' votes. */
  readonly apart: number;
  /** How far beyond the edge. */
  readonly beyond: number;
}

/*
 * Logistic regressions of "within 5 % of the person's size" on labelled photos and on cut copies of them; when they
 * were judged, the photo in question was held out (docs/benchmarks.md has the table).
 */
const INSIDE = { constant: -0.49, score: 5.52, lookSpread: -1.13, wholeBodyApart: -0.57, wholeBodyScore: 1.59 };
const INSIDE_KIND: Readonly<Record<string, number>> = {
  shoulder: -1.52,
  elbow: -0.5,
  wrist: -0.58,
  hip: -2.19,
  knee: -0.53,
  // On cut copies the fit alone was a little too hopeful for ankles (88 % of the firm ones were right): 0.2 is taken off.
  ankle: -1.02,
};
/** The spread of looks that all score less than this tells little, and counts by as much less. */
const SCORE_THAT_TELLS = 0.2;

const BEYOND = { constant: 0.22, score: 4.07, apart: -0.46, beyond: -3 };
const BEYOND_KIND: Readonly<Record<string, number>> = {
  elbow: 1.07,
  wrist: 0.38,
  hip: -0.87,
  knee: -0.48,
  ankle: -0.1,
};
/** Nobody sees a point beyond the edge: it is never firm, however well the guesses agree (about 8 in 10 then are right). */
const MOST_BEYOND = 0.65;

const HIGHEST_SCORE = 0.6;
/** Distances count by their logarithm; nearer than the first of these is all the same, the second is the unit. */
const NEAREST = 0.003;
const UNIT = 0.02;

/** The chance, 0 to 1, that a point lies within 5 % of the person's size of where a careful human would put it. */
export function chanceInside(name: BodyPoint, agreement: Agreement): number {
  return logistic(
    INSIDE.constant +
      INSIDE.score * Math.min(agreement.score, HIGHEST_SCORE) +
      INSIDE.lookSpread * Math.min(agreement.score / SCORE_THAT_TELLS, 1) * logarithm(agreement.lookSpread) +
      INSIDE.wholeBodyApart * logarithm(agreement.wholeBodyApart) +
      INSIDE.wholeBodyScore * agreement.wholeBodyScore +
      (INSIDE_KIND[kindOf(name)] ?? 0),
  );
}

/** The same for a point beyond the photo's edge; never more than "possible". */
export function chanceBeyond(name: BodyPoint, agreement: AgreementBeyond): number {
  const chance = logistic(
    BEYOND.constant +
      BEYOND.score * Math.min(agreement.score, HIGHEST_SCORE) +
      BEYOND.apart * logarithm(agreement.apart) +
      BEYOND.beyond * agreement.beyond +
      (BEYOND_KIND[kindOf(name)] ?? 0),
  );
  return Math.min(chance, MOST_BEYOND);
}

function logistic(value: number): number {
  return 1 / (1 + Math.exp(-value));
}

function logarithm(share: number): number {
  return Math.log(Math.max(share, NEAREST) / UNIT);
}

function kindOf(name: BodyPoint): string {
  return name.slice(name.indexOf('_') + 1);
}
