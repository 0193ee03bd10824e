import type { BodyPoint } from '../../people/points.ts';

/** What speaks for a point. Distances are shares of the person's size. */
export interface Agreement {
  /** Mean score of the single-person model's looks. */
  readonly score: number;
  /** Mean distance of the two looks furthest from the fused place. */
  readonly lookSpread: number;
  /** Distance of the whole-body model's vote from the fused place. */
  readonly wholeBodyApart: number;
}

/*
 * Logistic regression of "within 5 % of the person's size" on labelled photos (docs/benchmarks.md has the table and how
 * it was fitted). Held out photo by photo when it was judged.
 */
const WEIGHTS = { constant: 1.67, score: 3.81, lookSpread: -1.12, wholeBodyApart: -1.05 };
const KIND: Readonly<Record<string, number>> = {
  shoulder: -1.98,
  elbow: -0.72,
  wrist: -1.01,
  hip: -1.36,
  knee: 0.75,
  ankle: 0.67,
};
const HIGHEST_SCORE = 0.6;
/** Distances count by their logarithm; nearer than the first of these is all the same, the second is the unit. */
const NEAREST = 0.003;
const UNIT = 0.02;

/** The chance, 0 to 1, that a point lies within 5 % of the person's size of where a careful human would put it. */
export function chanceOf(name: BodyPoint, agreement: Agreement): number {
  const logit =
    WEIGHTS.constant +
    WEIGHTS.score * Math.min(agreement.score, HIGHEST_SCORE) +
    WEIGHTS.lookSpread * logarithm(agreement.lookSpread) +
    WEIGHTS.wholeBodyApart * logarithm(agreement.wholeBodyApart) +
    (KIND[kindOf(name)] ?? 0);
  return 1 / (1 + Math.exp(-logit));
}

function logarithm(share: number): number {
  return Math.log(Math.max(share, NEAREST) / UNIT);
}

function kindOf(name: BodyPoint): string {
  return name.slice(name.indexOf('_') + 1);
}
