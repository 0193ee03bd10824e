import type { Edges, Point } from '../../geometry/shapes.ts';
import { BODY_POINTS, type BodyPoint } from '../../people/points.ts';

/** Where a model puts a point (pixels of the decoded photo) and how sure it is of itself, 0 to 1, not calibrated. */
export interface Vote extends Point {
  readonly score: number;
}

/** One model's body: a vote for each of COCO's 17 points, in their order. */
export type BodyVotes = readonly Vote[];

const INDEX = new Map(BODY_POINTS.map((name, index) => [name, index]));

export function voteOf(votes: BodyVotes, name: BodyPoint): Vote {
  return votes[INDEX.get(name)!]!;
}

/** In pixels of the decoded photo. */
export type Box = Edges;

/** The longer side. */
export function sizeOf(box: Box): number {
  return Math.max(box.right - box.left, box.bottom - box.top);
}

export function joinBoxes(first: Box, second: Box): Box {
  return {
    left: Math.min(first.left, second.left),
    top: Math.min(first.top, second.top),
    right: Math.max(first.right, second.right),
    bottom: Math.max(first.bottom, second.bottom),
  };
}

/** Shared area over joint area, 0 to 1. */
export function overlapOf(first: Box, second: Box): number {
  const width = Math.min(first.right, second.right) - Math.max(first.left, second.left);
  const height = Math.min(first.bottom, second.bottom) - Math.max(first.top, second.top);
  if (width <= 0 || height <= 0) return 0;
  const shared = width * height;
  return shared / (areaOf(first) + areaOf(second) - shared);
}

export function areaOf(box: Box): number {
  return (box.right - box.left) * (box.bottom - box.top);
}
