import type { EdgeName, Edges } from '../geometry/shapes.ts';
import { EDGE_NAMES } from '../geometry/shapes.ts';
import { isBefore, rangeAcross, rangeAlong, spanEdges } from './limits.ts';

/** Whether the crop that alone is asked about (none: every crop is) has that edge clear of what lies between. */
export function isClear(at: Edges | undefined, edge: EdgeName, low: number, high: number): boolean {
  return at !== undefined && (at[edge] <= low || at[edge] >= high);
}

/**
 * The edges of a crop that may break a limit for the sake of a body in this box: not those with the whole body and
 * `reach` pixels more on their inner side, with the whole of it outside, or whose span passes it by.
 */
export function edgesNear(box: Edges, crop: Edges, reach: number): EdgeName[] {
  return EDGE_NAMES.filter((edge) => {
    const [low, high] = rangeAcross(edge, box);
    const [from, to] = rangeAlong(edge, box);
    const [start, end] = spanEdges(edge);
    if (crop[start] >= to || crop[end] <= from) return false;
    return isBefore(edge)
      ? crop[edge] > low - reach && crop[edge] < high
      : crop[edge] < high + reach && crop[edge] > low;
  });
}
