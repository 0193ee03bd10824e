import { insidePhoto } from '../../geometry/crop.ts';
import type { Size } from '../../geometry/shapes.ts';

const STEPS = 40;
/** Pixels that rounding may take. */
const HAIR = 0.01;

/** What a crop has to hold. Pixels of the turned picture. */
export interface Held {
  readonly left: number;
  readonly right: number;
  /** The highest head. */
  readonly top: number;
  /** Room over it, as a share of the crop's height. */
  readonly overHead: number;
}

/**
 * How far down an upright crop of the photo's own shape can reach in the photo turned by `degrees`, when it holds these
 * people with that room over their heads: a height in pixels of the turned picture, at most `wanted`. Undefined
 * when it cannot hold them at all.
 */
export function lowestReach(photo: Size, degrees: number, people: Held, wanted: number): number | undefined {
  const fits = (bottom: number): boolean => canReach(photo, degrees, people, bottom);
  if (fits(wanted)) return wanted;
  const shape = photo.width / photo.height;
  // Any less high, and it is not wide enough.
  let low = people.top + ((people.right - people.left + HAIR) / shape) * (1 - people.overHead);
  if (low >= wanted || !fits(low)) return undefined;
  let high = wanted;
  for (let step = 0; step < STEPS; step++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}

function canReach(photo: Size, degrees: number, people: Held, bottom: number): boolean {
  const height = (bottom - people.top) / (1 - people.overHead);
  const width = (height * photo.width) / photo.height;
  const top = bottom - height;
  // Only where it stands across is free: each condition bounds the left edge.
  let least = people.right - width;
  let most = people.left;
  for (const { left, top: ofTop, right, bottom: ofBottom, atMost } of insidePhoto(photo, degrees)) {
    const slope = left + right;
    const rest = atMost - ofTop * top - ofBottom * bottom - right * width;
    if (slope > 0) most = Math.min(most, rest / slope);
    else if (slope < 0) least = Math.max(least, rest / slope);
    else if (rest < 0) return false;
  }
  return least <= most;
}
