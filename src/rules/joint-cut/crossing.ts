import type { HalfSpace } from '../../geometry/half-space.ts';
import { atLeast, atMost, onTwoEdges } from '../../geometry/half-space.ts';
import type { EdgeName, Edges, Point } from '../../geometry/shapes.ts';
import { across, along, spanEdges } from '../limits.ts';
import { isClear } from '../near-edges.ts';

/** The escapes of an edge that crosses the line from `a` to `b` between the shares `start` and `end` of it. */
export function crossing(
  edge: EdgeName,
  a: Point,
  b: Point,
  start: number,
  end: number,
  out: HalfSpace,
  at?: Edges,
): HalfSpace[] | undefined {
  const run = across(edge, b) - across(edge, a);
  // A part that lies along the edge is not crossed; the band around its joints and edge-along-limb see to it.
  if (Math.abs(run) < 1) return undefined;
  const ends = [across(edge, a) + start * run, across(edge, a) + end * run] as const;
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  if (isClear(at, edge, low, high)) return undefined;
  const slope = (along(edge, b) - along(edge, a)) / run;
  const offset = along(edge, a) - slope * across(edge, a);
  const scale = Math.max(1, Math.abs(slope));
  const [first, last] = spanEdges(edge);
  // The crossing lies along the edge line at `offset + slope · edge`: before the span begins, or after it ends.
  return [
    atMost(edge, low),
    atLeast(edge, high),
    onTwoEdges(edge, slope / scale, first, -1 / scale, -offset / scale),
    onTwoEdges(edge, -slope / scale, last, 1 / scale, offset / scale),
    out,
  ];
}
