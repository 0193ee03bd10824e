import type { LeaningLine } from './leaning-line.ts';

/**
 * Lines that are parallel in the world meet in one point of the picture, or are parallel there: a fan. The model is
 * exact for a pinhole camera whose axis goes through the picture's middle: the lines of a fan point to a vanishing point
 * (Hartley and Zisserman, Multiple View Geometry, 2nd edition, section 8.6).
 */
export interface FanShape {
  /** What a line through the picture's middle leans: radians, clockwise as seen. */
  readonly lean: number;
  /**
   * One over how far the meeting point is from the middle, in the picture's longer edge; positive when uprights meet
   * above, or lying lines to the right.
   */
  readonly convergence: number;
}

export const DEGREE = Math.PI / 180;
/** The largest lean that is looked for: beyond, a slanting thing cannot be told from a slanting picture. */
export const MOST_LEAN = 15 * DEGREE;

/** What a line of the fan leans at a place. */
export function leanAt(
  { lean, convergence }: FanShape,
  { across, along }: Pick<LeaningLine, 'across' | 'along'>,
): number {
  return Math.atan2(Math.sin(lean) - convergence * across, Math.cos(lean) + convergence * along);
}
