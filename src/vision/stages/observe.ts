import type { Pyramid } from '../image/pyramid.ts';
import { seeWholeBody, type WholeBody } from '../models/blazepose.ts';
import type { ModelSet } from '../models/model-set.ts';
import type { Candidate } from '../models/multipose.ts';
import { placePoints, placePointsMirrored } from '../models/thunder.ts';
import type { BodyVotes } from '../models/vote.ts';
import { findEverybody } from './find.ts';
import { regionAroundHips, regionAroundPerson, regionAroundPoints } from './regions.ts';
import { withoutDoubles } from './suppress.ts';

/** What the models say about one person, before it is weighed. */
export interface Observation {
  /** 0 to 1: that this is a person at all. */
  readonly score: number;
  readonly finder: Candidate;
  /** The single-person model's points from its first look: they aim the others. */
  readonly votes: BodyVotes;
  /** All looks of the single-person model: the first, a closer one, and that one mirrored. */
  readonly looks: readonly BodyVotes[];
  readonly box: Candidate['box'];
  readonly whole: WholeBody;
}

const LEAST_SCORE = 0.35;
const FIRST_SCALE = 1.2;
const CLOSER_SCALE = 1.25;
const BODY_SCALE = 1.25;

/** Finds everybody in the picture and looks at each with the two single-person models. */
export async function observePeople(models: ModelSet, picture: Pyramid): Promise<Observation[]> {
  const placed = [];
  for (const finder of await findEverybody(models, picture)) {
    const votes = await placePoints(models, picture, regionAroundPerson(finder.box, finder.votes, FIRST_SCALE));
    const score = Math.sqrt(finder.score * meanOfBest(votes, 8));
    if (score >= LEAST_SCORE) placed.push({ score, finder, votes, box: finder.box });
  }
  const people: Observation[] = [];
  for (const person of withoutDoubles(placed)) {
    const closer = regionAroundPoints(person.votes, CLOSER_SCALE);
    const looks = [person.votes];
    if (closer !== undefined) {
      looks.push(await placePoints(models, picture, closer), await placePointsMirrored(models, picture, closer));
    }
    const whole = await seeWholeBody(models, picture, regionAroundHips(person.votes, BODY_SCALE));
    people.push({ ...person, looks, whole });
  }
  return people;
}

function meanOfBest(votes: BodyVotes, count: number): number {
  const best = votes
    .map((vote) => vote.score)
    .sort((a, b) => b - a)
    .slice(0, count);
  return best.reduce((sum, score) => sum + score, 0) / count;
}
