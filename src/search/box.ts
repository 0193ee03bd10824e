import type { HalfSpace } from '../geometry/half-space.ts';

/** Between which values each edge line can be, in pixels of the turned picture. */
export interface Box {
  readonly low: MutableEdges;
  readonly high: MutableEdges;
}

interface MutableEdges {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** Room for rounding, in pixels: less than what a limit may be missed by. */
const SLACK = 5e-7;

/** A box that reaches `far` pixels each way. */
export function wideBox(far: number): Box {
  return {
    low: { left: -far, top: -far, right: -far, bottom: -far },
    high: { left: far, top: far, right: far, bottom: far },
  };
}

export function copyOf({ low, high }: Box): Box {
  return { low: { ...low }, high: { ...high } };
}

/** The least that the left side of the half-space can be in the box. */
function leastIn({ left, top, right, bottom }: HalfSpace, low: MutableEdges, high: MutableEdges): number {
  return (
    left * (left > 0 ? low : high).left +
    top * (top > 0 ? low : high).top +
    right * (right > 0 ? low : high).right +
    bottom * (bottom > 0 ? low : high).bottom
  );
}

/** Whether some point of the box may meet it. */
export function canMeet({ low, high }: Box, halfSpace: HalfSpace): boolean {
  return leastIn(halfSpace, low, high) <= halfSpace.atMost + SLACK;
}

/** Whether every point of the box meets it, with its own bound or another one. */
export function alwaysMeets({ low, high }: Box, halfSpace: HalfSpace, bound = halfSpace.atMost): boolean {
  return leastIn(halfSpace, high, low) <= bound + SLACK;
}

/** Draws the box in to what the half-space leaves of it; false when nothing is left. */
export function tighten({ low, high }: Box, halfSpace: HalfSpace): boolean {
  const { left, top, right, bottom, atMost } = halfSpace;
  const room = atMost - leastIn(halfSpace, low, high);
  if (room < -SLACK) return false;
  if (left > 0) high.left = Math.min(high.left, low.left + room / left);
  else if (left < 0) low.left = Math.max(low.left, high.left + room / left);
  if (top > 0) high.top = Math.min(high.top, low.top + room / top);
  else if (top < 0) low.top = Math.max(low.top, high.top + room / top);
  if (right > 0) high.right = Math.min(high.right, low.right + room / right);
  else if (right < 0) low.right = Math.max(low.right, high.right + room / right);
  if (bottom > 0) high.bottom = Math.min(high.bottom, low.bottom + room / bottom);
  else if (bottom < 0) low.bottom = Math.max(low.bottom, high.bottom + room / bottom);
  return (
    low.left <= high.left + SLACK &&
    low.top <= high.top + SLACK &&
    low.right <= high.right + SLACK &&
    low.bottom <= high.bottom + SLACK
  );
}
