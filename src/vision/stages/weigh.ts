import { BODY_POINTS, type BodyPoint } from '../../people/points.ts';
import { distance, sizeOf, type Vote } from '../models/vote.ts';
import type { Observation } from './observe.ts';
import { boxOfSurePoints } from './suppress.ts';

/** A point in pixels of the decoded photo with the chance that it lies within 5 % of the person's size of the truth. */
export interface WeighedPoint {
  readonly x: number;
  readonly y: number;
  readonly confidence: number;
}

/** The 17 body points of one person, each with its calibrated confidence. */
export function weighBody(observation: Observation): Map<BodyPoint, WeighedPoint> {
  const size = sizeOf(boxOfSurePoints(observation));
  return new Map(
    BODY_POINTS.map((name, index) => {
      const vote = observation.votes[index]!;
      const others = [observation.finder.votes[index]!, observation.whole.votes[index]!];
      return [name, { x: vote.x, y: vote.y, confidence: confidenceOf(vote, others, size) }];
    }),
  );
}

function confidenceOf(vote: Vote, others: readonly Vote[], size: number): number {
  const apart = Math.min(...others.map((other) => distance(vote, other))) / size;
  const logit = 3.5 * Math.min(1, vote.score / 0.4) - 40 * apart;
  return 1 / (1 + Math.exp(-logit));
}
