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
  /** Distance from where a standing body would have it; for legs only. */
  readonly unexpected?: number;
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
/**
 * Elbows and wrists called firm by the regression were right in 17 of 19 and 11 of 13 cases on the COCO photos: it is too
 * sure of arms. This draws 0.8 down to 0.7 and leaves 0.4 where it is.
 */
const ARM = { constant: -0.12, slope: 0.7 };
const ARM_KINDS = ['elbow', 'wrist'];
/** The spread of looks that all score less than this tells little, and counts by as much less. */
const SCORE_THAT_TELLS = 0.2;

const BEYOND = { constant: 0.22, score: 4.07, apart: -0.46, beyond: -3 };
const BEYOND_KIND: Readonly<Record<string, number>> = {
  elbow: 1.07,
  wrist: 0.38,
};
/** Legs have a third witness, and a regression of their own: on the rendered photos and two of the COCO photos. */
const BEYOND_LEG = { constant: -0.69, score: 3.2, apart: -0.64, beyond: -0.25, unexpected: -0.65 };
const BEYOND_LEG_KIND: Readonly<Record<string, number>> = {
  knee: 0.85,
  ankle: 0.79,
};
/** Nobody sees a point beyond the edge: it is never firm, however well the guesses agree (about 8 in 10 then are right). */
const MOST_BEYOND = 0.65;

const HIGHEST_SCORE = 0.6;
/** Distances count by their logarithm; nearer than the first of these is all the same, the second is the unit. */
const NEAREST = 0.003;
const UNIT = 0.02;

/** The chance, 0 to 1, that a point lies within 5 % of the person's size of where a careful human would put it. */
export function chanceInside(name: BodyPoint, agreement: Agreement): number {
  const kind = kindOf(name);
  const value =
    INSIDE.constant +
    INSIDE.score * Math.min(agreement.score, HIGHEST_SCORE) +
    INSIDE.lookSpread * Math.min(agreement.score / SCORE_THAT_TELLS, 1) * logarithm(agreement.lookSpread) +
    INSIDE.wholeBodyApart * logarithm(agreement.wholeBodyApart) +
    INSIDE.wholeBodyScore * agreement.wholeBodyScore +
    (INSIDE_KIND[kind] ?? 0);
  return logistic(ARM_KINDS.includes(kind) ? ARM.constant + ARM.slope * value : value);
}

/** The same for a point beyond the photo's edge; never more than "possible". */
export function chanceBeyond(name: BodyPoint, agreement: AgreementBeyond): number {
  const { unexpected } = agreement;
  const chance =
    unexpected === undefined
      ? weighBeyond(agreement, BEYOND) + (BEYOND_KIND[kindOf(name)] ?? 0)
      : weighBeyond(agreement, BEYOND_LEG) +
        BEYOND_LEG.unexpected * logarithm(unexpected) +
        (BEYOND_LEG_KIND[kindOf(name)] ?? 0);
  return Math.min(logistic(chance), MOST_BEYOND);
}

function weighBeyond({ score, apart, beyond }: AgreementBeyond, weights: typeof BEYOND): number {
  return (
    weights.constant +
    weights.score * Math.min(score, HIGHEST_SCORE) +
    weights.apart * logarithm(apart) +
    weights.beyond * beyond
  );
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
