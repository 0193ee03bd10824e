import { boxAround, distance } from '../geometry/points.ts';
import type { Edges, Point } from '../geometry/shapes.ts';
import { FIRM } from './confidence.ts';
import type { MeasuredPoint, Places } from './person.ts';
import type { PointName, Side } from './points.ts';
import { handPoints } from './points.ts';

/** A hand or a foot as the box around its points, in pixels of the turned picture. */
export interface Region {
  readonly side: Side;
  readonly box: Edges;
  /** The limb that it ends, in pixels: forearm or shin. Margins are shares of it. */
  readonly limb: number;
  readonly confidence: number;
}

/** From the wrist to the fingertips as a share of the forearm when no finger was found (measured on labelled hands). */
const HAND_LENGTH = 0.6;
const HAND_HALF_WIDTH = 0.12;
/** From the ankle to the toes and the sole as a share of the shin when no toe was found (median of exact labels). */
const FOOT_LENGTH = 0.26;
const FOOT_HALF_WIDTH = 0.16;
/** An extrapolated hand or foot is never more than possible. */
const EXTRAPOLATED = FIRM - 0.1;

/** The names of a side's points, put together once: this is asked of every person. */
const NAMES = { left: namesOf('left'), right: namesOf('right') } as const;

function namesOf(side: Side) {
  return {
    wrist: `${side}_wrist`,
    elbow: `${side}_elbow`,
    hand: handPoints(side),
    ankle: `${side}_ankle`,
    knee: `${side}_knee`,
    foot: [`${side}_big_toe`, `${side}_small_toe`, `${side}_heel`],
  } as const;
}

/**
 * The hand from wrist to fingertips; undefined when the wrist was not found.
 * @param hasFingers false: no point of any hand is among them, so that none is looked for
 */
export function handRegion(points: Places, side: Side, hasFingers = true): Region | undefined {
  const names = NAMES[side];
  const wrist = points[names.wrist];
  const elbow = points[names.elbow];
  const found = hasFingers ? foundOf(points, names.hand) : [];
  const limb = wrist && elbow ? distance(wrist, elbow) : undefined;
  if (found.length >= 3) {
    const all = wrist ? [wrist, ...found] : found;
    return { side, box: around(all, 0), limb: limb ?? longest(all), confidence: sureness(found) };
  }
  if (!wrist || !elbow || limb === undefined) return undefined;
  const tip = beyond(elbow, wrist, HAND_LENGTH);
  return {
    side,
    box: around([wrist, tip], HAND_HALF_WIDTH * limb),
    limb,
    confidence: Math.min(wrist.confidence, elbow.confidence, EXTRAPOLATED),
  };
}

/**
 * The foot from ankle to toes; undefined when the ankle was not found (a dress may hide it: see body-lines.ts). A foot
 * that is only reckoned from the shin ends where the outline does, at `lowest`.
 */
export function footRegion(points: Places, side: Side, lowest = Infinity): Region | undefined {
  const names = NAMES[side];
  const ankle = points[names.ankle];
  const knee = points[names.knee];
  const found = foundOf(points, names.foot);
  const limb = ankle && knee ? distance(ankle, knee) : undefined;
  if (found.length >= 2) {
    const all = ankle ? [ankle, ...found] : found;
    return { side, box: around(all, 0), limb: limb ?? 2 * longest(all), confidence: sureness(found) };
  }
  if (!ankle || !knee || limb === undefined) return undefined;
  const box = around([ankle, beyond(knee, ankle, FOOT_LENGTH)], FOOT_HALF_WIDTH * limb, 0);
  return {
    side,
    box: { ...box, bottom: Math.max(ankle.y, Math.min(box.bottom, lowest)) },
    limb,
    confidence: Math.min(ankle.confidence, knee.confidence, EXTRAPOLATED),
  };
}

function foundOf(points: Places, names: readonly PointName[]): MeasuredPoint[] {
  const found: MeasuredPoint[] = [];
  for (const name of names) {
    const point = points[name];
    if (point) found.push(point);
  }
  return found;
}

function sureness(points: readonly MeasuredPoint[]): number {
  return points.reduce((total, point) => total + point.confidence, 0) / points.length;
}

function beyond(from: Point, to: Point, share: number): Point {
  return { x: to.x + (to.x - from.x) * share, y: to.y + (to.y - from.y) * share };
}

function longest(points: readonly Point[]): number {
  const box = around(points, 0);
  return Math.hypot(box.right - box.left, box.bottom - box.top);
}

function around(points: readonly Point[], pad: number, padHeight = pad): Edges {
  const box = boxAround(points);
  return { left: box.left - pad, top: box.top - padHeight, right: box.right + pad, bottom: box.bottom + padHeight };
}
