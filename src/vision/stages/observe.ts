import type { Pyramid } from '../image/pyramid.ts';
import { seeWholeBody, type WholeBody } from '../models/blazepose.ts';
import type { ModelSet } from '../models/model-set.ts';
import type { Candidate } from '../models/multipose.ts';
import { placePoints, placePointsMirrored } from '../models/thunder.ts';
import { joinBoxes, type BodyVotes } from '../models/vote.ts';
import { isAtEdge, lookBeyond, type ViewBeyond } from './beyond.ts';
import { findEverybody } from './find.ts';
import { regionAroundHips, regionAroundPerson, regionAroundPoints } from './regions.ts';
import { boxOfSurePoints, isSamePerson, withoutDoubles } from './suppress.ts';

/** A candidate on whom the single-person model has had its first look. */
export interface Placed {
  /** 0 to 1: that this is a person at all. */
  readonly score: number;
  readonly finder: Candidate;
  /** The single-person model's points from its first look: they aim the others. */
  readonly votes: BodyVotes;
  readonly box: Candidate['box'];
}

/** What the models say about one person, before it is weighed. */
export interface Observation extends Placed {
  /** All looks of the single-person model: the first, a closer one, and that one mirrored. */
  readonly looks: readonly BodyVotes[];
  /** Absent: the person was only glimpsed behind somebody else, and the looks are the finder's alone. */
  readonly whole?: WholeBody;
  /** Only of people whom the photo's edge cuts or nearly touches. */
  readonly beyond?: ViewBeyond;
}

const LEAST_SCORE = 0.35;
const FIRST_SCALE = 1.2;
const CLOSER_SCALE = 1.25;
const BODY_SCALE = 1.25;
/** A finder less sure than this, of the person and of eight points, has glimpsed nobody. */
const LEAST_GLIMPSE = 0.2;
const LEAST_GLIMPSED_POINTS = 0.42;

/** Finds everybody in the picture and looks at each with the two single-person models. */
export async function observePeople(models: ModelSet, picture: Pyramid): Promise<Observation[]> {
  const placed: Placed[] = [];
  for (const candidate of await findEverybody(models, picture)) placed.push(await place(models, picture, candidate));
  const people: Observation[] = [];
  for (const person of withoutDoubles(placed.filter(({ score }) => score >= LEAST_SCORE))) {
    people.push(await observe(models, picture, person));
  }
  return [...people, ...glimpsedBehind(placed, people)];
}

/**
 * People whom the finder saw behind others: the single-person model looked at the one in front, and was dropped as a
 * double. The finder's own points are all there is of them.
 */
function glimpsedBehind(placed: readonly Placed[], people: readonly Observation[]): Observation[] {
  return placed
    .filter(({ finder }) => finder.score >= LEAST_GLIMPSE && meanOfBest(finder.votes, 8) >= LEAST_GLIMPSED_POINTS)
    .filter((person) => people.some((other) => isSamePerson(person, other)))
    .filter(({ finder }) => !people.some((other) => other.finder === finder || isSamePerson(finder, other)))
    .map((person) => ({ ...person, votes: person.finder.votes, looks: [person.finder.votes] }));
}

async function place(models: ModelSet, picture: Pyramid, finder: Candidate): Promise<Placed> {
  const votes = await placePoints(models, picture, regionAroundPerson(finder.box, finder.votes, FIRST_SCALE));
  return { score: Math.sqrt(finder.score * meanOfBest(votes, 8)), finder, votes, box: finder.box };
}

async function observe(models: ModelSet, picture: Pyramid, person: Placed): Promise<Observation> {
  const closer = regionAroundPoints(person.votes, CLOSER_SCALE);
  const looks = [person.votes];
  if (closer !== undefined) {
    looks.push(await placePoints(models, picture, closer), await placePointsMirrored(models, picture, closer));
  }
  const whole = await seeWholeBody(models, picture, regionAroundHips(person.votes, BODY_SCALE));
  const seen = joinBoxes(person.box, boxOfSurePoints(person));
  if (!isAtEdge(seen, picture)) return { ...person, looks, whole };
  return { ...person, looks, whole, beyond: await lookBeyond(models, picture, person) };
}

function meanOfBest(votes: BodyVotes, count: number): number {
  const best = votes
    .map((vote) => vote.score)
    .sort((a, b) => b - a)
    .slice(0, count);
  return best.reduce((sum, score) => sum + score, 0) / count;
}
