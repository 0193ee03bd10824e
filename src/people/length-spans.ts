import type { Edges } from '../geometry/shapes.ts';
import type { Figure } from './figure.ts';
import type { Length } from './lengths.ts';
import { LENGTHS } from './lengths.ts';

/** From where on a torso (share from shoulder to hip) a cut is half-length and no longer head and shoulders. */
export const HALF_LENGTH_FROM = 0.45;
/** From where on a head (share from its top to the eyes) a cut is on purpose. */
export const HEAD_CUT_FROM = 0.2;
export const HEAD_CUT_TO = 0.6;

/** The heights of a crop's lower edge that make one length, in pixels of the turned picture: above `from` to `to`. */
export interface LengthSpan {
  readonly length: Length;
  readonly from: number;
  readonly to: number;
}

/** Where each length lies for the lower edge on this person, from full-length down the ladder. */
export function lengthSpans(figure: Figure): LengthSpan[] {
  const { shoulder, hip, sole } = figure.lines;
  const half = shoulder + HALF_LENGTH_FROM * (hip - shoulder);
  const ends = [sole, hip, half, shoulder, -Infinity];
  return LENGTHS.map((length, rung) => ({ length, from: ends[rung]!, to: rung === 0 ? Infinity : ends[rung - 1]! }));
}

/**
 * The length that a crop shows of this person, by its lower edge; a head cut on purpose by a crop that would be head
 * and shoulders makes it a close-up.
 */
export function foundLength(figure: Figure, crop: Edges): Length {
  const span = lengthSpans(figure).find(({ from }) => crop.bottom >= from);
  const length = span?.length ?? 'close-up';
  return length === 'head-and-shoulders' && crop.top >= headCutFrom(figure) ? 'close-up' : length;
}

/** The heights between which a top edge cuts the head on purpose, in pixels of the turned picture. */
export function headCutFrom(figure: Figure): number {
  return headAt(figure, HEAD_CUT_FROM);
}

export function headCutTo(figure: Figure): number {
  return headAt(figure, HEAD_CUT_TO);
}

function headAt(figure: Figure, share: number): number {
  const top = figure.headTop?.y ?? figure.lines.headTop;
  const eyes = figure.face?.eyes.y ?? figure.lines.eyes;
  return top + share * Math.max(0, eyes - top);
}
