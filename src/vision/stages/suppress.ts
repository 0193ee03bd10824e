import type { BodyVotes, Box } from '../models/vote.ts';
import { boxAround } from '../../geometry/points.ts';
import { areaOf, overlapOf } from '../models/vote.ts';

/** How far labels of each point spread, as a share of the person's size (COCO keypoint evaluation, Lin et al., 2014). */
export const COCO_SIGMAS = [
  0.026, 0.025, 0.025, 0.035, 0.035, 0.079, 0.079, 0.072, 0.072, 0.062, 0.062, 0.107, 0.107, 0.087, 0.087, 0.089, 0.089,
] as const;

const SURE_ENOUGH = 0.2;
const SAME_BODY = 0.45;
const SAME_BOX = 0.7;

export interface Found {
  readonly score: number;
  readonly box: Box;
  readonly votes: BodyVotes;
}

/** One of each person: of finds that lie on each other only the best stays. Best first. */
export function withoutDoubles<T extends Found>(people: readonly T[]): T[] {
  const kept: T[] = [];
  for (const person of [...people].sort((a, b) => b.score - a.score)) {
    if (!kept.some((other) => isSamePerson(person, other))) kept.push(person);
  }
  return kept;
}

/** Whether two finds lie on each other. */
export function isSamePerson(person: Found, other: Found): boolean {
  const box = boxOfSurePoints(person);
  if (overlapOf(box, boxOfSurePoints(other)) > SAME_BOX) return true;
  return similarity(person.votes, other.votes, 0.6 * areaOf(box)) > SAME_BODY;
}

export function boxOfSurePoints(person: Found): Box {
  const sure = person.votes.filter((vote) => vote.score >= SURE_ENOUGH);
  return sure.length < 3 ? person.box : boxAround(sure);
}

/** COCO's object keypoint similarity between two finds, over the points of which both are halfway sure. */
function similarity(first: BodyVotes, second: BodyVotes, area: number): number {
  let sum = 0;
  let count = 0;
  first.forEach((vote, k) => {
    const other = second[k]!;
    if (Math.min(vote.score, other.score) < 0.1) return;
    const squared = (vote.x - other.x) ** 2 + (vote.y - other.y) ** 2;
    sum += Math.exp(-squared / (2 * area * (2 * COCO_SIGMAS[k]!) ** 2));
    count += 1;
  });
  return count >= 3 ? sum / count : 0;
}
