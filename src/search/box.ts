import type { HalfSpace } from '../geometry/half-space.ts';
import { EDGE_NAMES } from '../geometry/shapes.ts';

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
  const least = leastIn(halfSpace, low, high);
  if (least > halfSpace.atMost + SLACK) return false;
  for (const edge of EDGE_NAMES) {
    const coefficient = halfSpace[edge];
    if (coefficient === 0) continue;
    const own = coefficient * (coefficient > 0 ? low : high)[edge];
    const bound = (halfSpace.atMost - least + own) / coefficient;
    if (coefficient > 0) {
      if (bound < high[edge]) high[edge] = bound;
    } else if (bound > low[edge]) low[edge] = bound;
    if (low[edge] > high[edge] + SLACK) return false;
  }
  return true;
}
