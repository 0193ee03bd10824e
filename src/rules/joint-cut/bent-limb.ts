import type { HalfSpace } from '../../geometry/half-space.ts';
import { distance } from '../../geometry/points.ts';
import type { EdgeName, Edges } from '../../geometry/shapes.ts';
import type { Figure } from '../../people/figure.ts';
import type { BodyPoint } from '../../people/points.ts';
import { SIDES } from '../../people/points.ts';
import { across, isBefore } from '../limits.ts';
import type { Limit } from '../rule.ts';
import { crossing } from './crossing.ts';
import { limitOf } from './cut-limit.ts';

/** A joint in the middle of a limb, between the two that it bends. */
export interface BentLimb {
  readonly joint: BodyPoint;
  readonly upper: BodyPoint;
  readonly lower: BodyPoint;
}

export const BENT_LIMBS: readonly BentLimb[] = SIDES.flatMap((side): BentLimb[] => [
  { joint: `${side}_elbow`, upper: `${side}_shoulder`, lower: `${side}_wrist` },
  { joint: `${side}_knee`, upper: `${side}_hip`, lower: `${side}_ankle` },
]);

/** No edge with an elbow or a knee beyond it and both neighbours within: each cut may be fine, and the limb is in pieces. */
export function addBentLimit(
  limits: Limit[],
  figure: Figure,
  edge: EdgeName,
  { joint, upper, lower }: BentLimb,
  bandPercent: number,
  out: HalfSpace,
  at: Edges | undefined,
): void {
  const bend = figure.points[joint];
  const from = figure.points[upper];
  const to = figure.points[lower];
  if (!bend || !from || !to) return;
  const outward = isBefore(edge) ? -1 : 1;
  const middle = across(edge, bend);
  const beyond = Math.min(outward * (middle - across(edge, from)), outward * (middle - across(edge, to)));
  const length = Math.max(distance(from, bend), distance(bend, to));
  // A joint that hardly stands out is within its band.
  if (beyond <= (bandPercent / 100) * length) return;
  const upperCut = crossing(edge, from, bend, 0, 1, out, at);
  const lowerCut = upperCut && crossing(edge, bend, to, 0, 1, out, at);
  if (!lowerCut) return;
  const confidence = Math.min(bend.confidence, from.confidence, to.confidence);
  const escapes = [...upperCut, ...lowerCut];
  limits.push(limitOf('bent', figure, edge, joint, middle, length, confidence, escapes, undefined));
}
