import type { EdgeName, Edges } from '../geometry/shapes.ts';

/** Whether the crop that alone is asked about (none: every crop is) has that edge clear of what lies between. */
export function isClear(at: Edges | undefined, edge: EdgeName, low: number, high: number): boolean {
  return at !== undefined && (at[edge] <= low || at[edge] >= high);
}

/**
 * The edges of a crop that may break a limit for the sake of a body in this box: not those with the whole body and
 * `reach` pixels more on their inner side, with the whole of it outside, or whose span passes it by.
 */
export function edgesNear(box: Edges, crop: Edges, reach: number): EdgeName[] {
  const isAcross = crop.left < box.right && crop.right > box.left;
  const isAlong = crop.top < box.bottom && crop.bottom > box.top;
  const near: EdgeName[] = [];
  if (isAlong && crop.left > box.left - reach && crop.left < box.right) near.push('left');
  if (isAcross && crop.top > box.top - reach && crop.top < box.bottom) near.push('top');
  if (isAlong && crop.right < box.right + reach && crop.right > box.left) near.push('right');
  if (isAcross && crop.bottom < box.bottom + reach && crop.bottom > box.top) near.push('bottom');
  return near;
}
