import type { HalfSpace } from '../../geometry/half-space.ts';
import { atLeast, atMost, onTwoEdges } from '../../geometry/half-space.ts';
import type { EdgeName, Edges, Point } from '../../geometry/shapes.ts';
import { across, along, spanEdges } from '../limits.ts';
import { isClear } from '../near-edges.ts';

/**
 * The escapes of an edge that crosses the line from `a` to `b` between two shares of it; undefined when it cannot, or
 * where the crop that alone is asked about does not.
 */
export function crossing(
  edge: EdgeName,
  a: Point,
  b: Point,
  start: number,
  end: number,
  out: HalfSpace,
  at: Edges | undefined,
): HalfSpace[] | undefined {
  const from = across(edge, a);
  const run = across(edge, b) - from;
  // A part that lies along the edge is not crossed; the band around its joints and edge-along-limb see to it.
  if (Math.abs(run) < 1) return undefined;
  const first = from + start * run;
  const last = from + end * run;
  const low = Math.min(first, last);
  const high = Math.max(first, last);
  if (isClear(at, edge, low, high)) return undefined;
  const [before, after] = crossingPastSpan(edge, a, (along(edge, b) - along(edge, a)) / run);
  return [atMost(edge, low), atLeast(edge, high), before, after, out];
}

/** An edge crosses a line through `a` of that slope before the edge's span begins, or after it ends. */
function crossingPastSpan(edge: EdgeName, a: Point, slope: number): readonly [HalfSpace, HalfSpace] {
  // The crossing lies along the edge line at `offset + slope · edge`.
  const offset = along(edge, a) - slope * across(edge, a);
  const scale = Math.max(1, Math.abs(slope));
  const [first, last] = spanEdges(edge);
  return [
    onTwoEdges(edge, slope / scale, first, -1 / scale, -offset / scale),
    onTwoEdges(edge, -slope / scale, last, 1 / scale, offset / scale),
  ];
}
