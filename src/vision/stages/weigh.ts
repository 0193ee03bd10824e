import { BODY_POINTS, type BodyPoint } from '../../people/points.ts';
import type { Point } from '../../geometry/shapes.ts';
import { distance, sizeOf, type Vote } from '../models/vote.ts';
import { chanceOf, type Agreement } from './calibration.ts';
import { fuseVotes } from './fuse.ts';
import type { Observation } from './observe.ts';
import { boxOfSurePoints } from './suppress.ts';

/** A point in pixels of the decoded photo with the chance that it lies within 5 % of the person's size of the truth. */
export interface WeighedPoint extends Point {
  readonly confidence: number;
}

export type WeighedBody = ReadonlyMap<BodyPoint, WeighedPoint>;

/** The 17 body points of one person: all votes made one, with its calibrated confidence. */
export function weighBody(observation: Observation): WeighedBody {
  const size = personSize(observation);
  return new Map(
    BODY_POINTS.map((name, index) => {
      const looks = observation.looks.map((votes) => votes[index]!);
      const whole = observation.whole.votes[index]!;
      const place = fuseVotes([...looks, whole], size);
      const agreement = agreementOf(place, looks, whole, size);
      return [name, { ...place, confidence: chanceOf(name, agreement) }];
    }),
  );
}

/** The longer side of the box around the points the models are sure of, in pixels: what distances are measured by. */
export function personSize(observation: Observation): number {
  return sizeOf(boxOfSurePoints(observation));
}

function agreementOf(place: Point, looks: readonly Vote[], whole: Vote, size: number): Agreement {
  const apart = looks.map((vote) => distance(vote, place) / size).sort((a, b) => b - a);
  return {
    score: meanOf(looks.map((vote) => vote.score)),
    lookSpread: meanOf(apart.slice(0, 2)),
    wholeBodyApart: distance(whole, place) / size,
  };
}

function meanOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
}
