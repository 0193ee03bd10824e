import type { EdgeChain } from './edge-chains.ts';

/** A straight stretch of an edge: x = x at its middle + slope · (y − y at its middle). Plane pixels. */
export interface StraightPiece {
  readonly x: number;
  readonly y: number;
  readonly slope: number;
  readonly length: number;
  /** Of the slope, one standard deviation. */
  readonly slopeError: number;
}

/** Farther than this from the straight line (pixels) an edge bends, and is parted there. */
const LARGEST_BEND = 1;
/** No place is known better than this, in pixels. */
const LEAST_SCATTER = 0.15;
/** Neighbouring places err together, so they count as fewer. */
const TOGETHER = 4;

/** The straight pieces of an edge, parted where it is farthest from a chord (Ramer, 1972; Douglas and Peucker, 1973). */
export function straightPieces(chain: EdgeChain, leastLength: number): StraightPiece[] {
  const pieces: StraightPiece[] = [];
  const rest: [number, number][] = [[0, chain.x.length - 1]];
  for (let span = rest.pop(); span !== undefined; span = rest.pop()) {
    const [first, last] = span;
    if (chain.y[last]! - chain.y[first]! < leastLength) continue;
    const bend = farthest(chain, first, last);
    if (bend.distance > LARGEST_BEND) rest.push([first, bend.at], [bend.at, last]);
    else pieces.push(fitted(chain, first, last));
  }
  return pieces;
}

function farthest({ x, y }: EdgeChain, first: number, last: number): { at: number; distance: number } {
  const slope = (x[last]! - x[first]!) / (y[last]! - y[first]!);
  let found = { at: first, distance: 0 };
  for (let at = first + 1; at < last; at++) {
    const distance = Math.abs(x[at]! - x[first]! - slope * (y[at]! - y[first]!));
    if (distance > found.distance) found = { at, distance };
  }
  return found;
}

/** Least squares; all places of a straight piece are near the line already. */
function fitted({ x, y }: EdgeChain, first: number, last: number): StraightPiece {
  const count = last - first + 1;
  let middleX = 0;
  let middleY = 0;
  for (let at = first; at <= last; at++) {
    middleX += x[at]! / count;
    middleY += y[at]! / count;
  }
  let spread = 0;
  let product = 0;
  for (let at = first; at <= last; at++) {
    spread += (y[at]! - middleY) ** 2;
    product += (y[at]! - middleY) * (x[at]! - middleX);
  }
  const slope = product / spread;
  let squares = 0;
  for (let at = first; at <= last; at++) squares += (x[at]! - middleX - slope * (y[at]! - middleY)) ** 2;
  const scatter = Math.max(LEAST_SCATTER, Math.sqrt(squares / count));
  const length = Math.hypot(1, slope) * (y[last]! - y[first]!);
  return { x: middleX, y: middleY, slope, length, slopeError: scatter * Math.sqrt(TOGETHER / spread) };
}
