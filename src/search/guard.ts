import type { HalfSpace } from '../geometry/half-space.ts';
import type { EdgeName, Size } from '../geometry/shapes.ts';
import { roundingStep } from './conditions.ts';

/**
 * An escape as the search must meet it: `deeper` pixels further than the rule asks, and so much further that it still
 * holds when the crop is written (four decimals, rounded inward). At the photo's own edge there is nothing deeper.
 */
export function guarded(escape: HalfSpace, photo: Size, isTurned: boolean, deeper: number): HalfSpace {
  const { left, top, right, bottom } = escape;
  return { left, top, right, bottom, atMost: guardedBound(escape, photo, isTurned, deeper) };
}

/** The bound of the guarded escape: never greater for a greater `deeper`. */
export function guardedBound(escape: HalfSpace, photo: Size, isTurned: boolean, deeper: number): number {
  const { left, top, right, bottom } = escape;
  const largest = Math.max(Math.abs(left), Math.abs(top), Math.abs(right), Math.abs(bottom));
  // What rounding inward can add to the left side.
  const x = Math.max(0, left) + Math.max(0, -right);
  const y = Math.max(0, top) + Math.max(0, -bottom);
  const rounding = x * roundingStep(photo.width) + y * roundingStep(photo.height);
  const bound = escape.atMost - deeper * largest - rounding;
  const least = isTurned ? -Infinity : boundAtPhotoEdge(escape, photo);
  return Math.max(bound, least);
}

/** The least that an escape of one edge, outward, can be asked: the photo's own edge, if that meets the rule. */
function boundAtPhotoEdge({ left, top, right, bottom, atMost }: HalfSpace, photo: Size): number {
  const least = right * photo.width + bottom * photo.height;
  const isOutward = left >= 0 && top >= 0 && right <= 0 && bottom <= 0;
  const isOfOneEdge = Number(left !== 0) + Number(top !== 0) + Number(right !== 0) + Number(bottom !== 0) === 1;
  return isOutward && isOfOneEdge && least <= atMost ? least : -Infinity;
}

/** Where the photo's own edge lies, in pixels. */
export function ownEdge(edge: EdgeName, photo: Size): number {
  return { left: 0, top: 0, right: photo.width, bottom: photo.height }[edge];
}
