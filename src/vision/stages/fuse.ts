import type { Point } from '../../geometry/shapes.ts';
import { distance } from '../../geometry/points.ts';
import { type Vote } from '../models/vote.ts';

const ROUNDS = 20;
const LEAST_SCORE = 0.05;
/** Votes nearer than this share of the person's size count as together. */
const TOGETHER = 0.004;

/**
 * The place with the least sum of weighted distances to all votes (geometric median, Weiszfeld's rounds): where three
 * agree and one has the wrong leg, it stays with the three.
 * @param size of the person, in the votes' unit
 */
export function fuseVotes(votes: readonly Vote[], size: number): Point {
  const weights = votes.map((vote) => Math.sqrt(Math.max(vote.score, LEAST_SCORE)));
  let place = weightedMean(votes, weights);
  for (let round = 0; round < ROUNDS; round++) {
    const pulls = votes.map((vote, k) => weights[k]! / Math.max(distance(vote, place) / size, TOGETHER));
    place = weightedMean(votes, pulls);
  }
  return place;
}

function weightedMean(points: readonly Point[], weights: readonly number[]): Point {
  let x = 0;
  let y = 0;
  let sum = 0;
  points.forEach((point, k) => {
    x += weights[k]! * point.x;
    y += weights[k]! * point.y;
    sum += weights[k]!;
  });
  return { x: x / sum, y: y / sum };
}
