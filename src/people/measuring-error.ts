import { heightOf, widthOf } from '../geometry/shapes.ts';
import { FIRM } from './confidence.ts';
import type { Figure } from './figure.ts';

/** What a measured place on a body is, for how far off it may be. */
export type PlaceKind =
  'face' | 'shoulder' | 'elbow' | 'wrist' | 'hip' | 'knee' | 'ankle' | 'hand' | 'foot' | 'head-top' | 'outline';

/**
 * How far a measured point usually lies from the truth, as a share of the longer side of what is seen of the person: the
 * median of firm points on human-labelled photographs (docs/benchmarks.md, accuracy of measuring).
 */
const USUAL_ERROR: Readonly<Record<PlaceKind, number>> = {
  face: 0.006,
  shoulder: 0.02,
  elbow: 0.018,
  wrist: 0.025,
  hip: 0.028,
  knee: 0.016,
  ankle: 0.02,
  hand: 0.025,
  foot: 0.025,
  'head-top': 0.013,
  outline: 0.01,
};

const POSSIBLE_FACTOR = 1.5;
/** Places that a person put there by hand are taken as they are, but for the width of a hair. */
const BY_HAND = 0.002;

/** How far from a place of `figure` the search keeps away beyond what the rule asks, in pixels. */
export function measuringError(figure: Figure, kind: PlaceKind, confidence: number): number {
  const reach = Math.max(widthOf(figure.extent), heightOf(figure.extent));
  if (figure.source === 'hand') return BY_HAND * reach;
  const factor = confidence >= FIRM ? 1 : POSSIBLE_FACTOR;
  return USUAL_ERROR[kind] * factor * reach;
}
