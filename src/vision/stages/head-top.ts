import type { Point } from '../../geometry/shapes.ts';
import { distance, middleOf } from '../../geometry/points.ts';
import { voteOf, type BodyVotes } from '../models/vote.ts';

/** Crown over the eyes, as a share of the distance from the eyes to the shoulder line (measured on labelled photos). */
const CROWN = 0.68;
/** Hair and hats may stand higher than the crown by this much of the same distance; more is an arm or a neighbour. */
const TALLEST = 1.25;
const HALF_WIDTH = 0.55;

/** The highest point of hair or headwear on the outline; from the face alone where the outline does not help. */
export function findHeadTop(votes: BodyVotes, outline: readonly Point[]): Point & { readonly fromOutline: boolean } {
  const eyes = middleOf(voteOf(votes, 'left_eye'), voteOf(votes, 'right_eye'));
  const ears = middleOf(voteOf(votes, 'left_ear'), voteOf(votes, 'right_ear'));
  const shoulders = middleOf(voteOf(votes, 'left_shoulder'), voteOf(votes, 'right_shoulder'));
  const unit = distance(eyes, shoulders);
  const middle = middleOf(eyes, ears);
  const near = outline.filter(
    (point) =>
      Math.abs(point.x - middle.x) <= HALF_WIDTH * unit && distance(point, eyes) <= TALLEST * unit && point.y < eyes.y,
  );
  const highest = near.reduce<Point | undefined>(
    (best, point) => (best === undefined || point.y < best.y ? point : best),
    undefined,
  );
  if (highest !== undefined) return { ...highest, fromOutline: true };
  const up = { x: (eyes.x - shoulders.x) / (unit || 1), y: (eyes.y - shoulders.y) / (unit || 1) };
  return { x: eyes.x + CROWN * unit * up.x, y: eyes.y + CROWN * unit * up.y, fromOutline: false };
}
