import { BODY_POINTS, type BodyPoint } from '../../people/points.ts';
import type { Point, Size } from '../../geometry/shapes.ts';
import { distance } from '../../geometry/points.ts';
import type { ViewBeyond } from './beyond.ts';
import { sizeOf, type Vote } from '../models/vote.ts';
import { chanceBeyond, chanceInside } from './calibration.ts';
import { expectedPlace, parentOf } from './expected.ts';
import { fuseVotes } from './fuse.ts';
import type { Observation } from './observe.ts';
import { boxOfSurePoints } from './suppress.ts';

/** A point in pixels of the decoded photo with the chance that it lies within 5 % of the person's size of the truth. */
export interface WeighedPoint extends Point {
  readonly confidence: number;
}

export type WeighedBody = ReadonlyMap<BodyPoint, WeighedPoint>;

/** A standing body is about this many trunks tall (common practice in drawing, no source). */
const TRUNKS_TALL = 3;
/** Who was only glimpsed behind somebody else has no firm points. */
const MOST_GLIMPSED = 0.6;
/** Looks at the extended picture count at least this much beside each other: neither may fall silent there. */
const LEAST_SCORE_BEYOND = 0.15;
/** What the build of a body says of a leg beyond the edge counts like a look with this score. */
const SCORE_OF_EXPECTED = 0.25;

/** The 17 body points of one person: all votes made one, with its calibrated confidence. */
export function weighBody(observation: Observation, photo: Size): WeighedBody {
  const size = personSize(observation);
  const body = new Map<BodyPoint, WeighedPoint>();
  // In this order every joint comes after the one it hangs on.
  BODY_POINTS.forEach((name, index) => {
    const parent = parentOf(name);
    const question = { name, index, size, parent: parent && body.get(parent) };
    body.set(name, weighPoint(observation, photo, question));
  });
  return body;
}

/** What distances are measured by, in pixels: the box around the sure points, or what the trunk says of a cut body. */
export function personSize(observation: Observation): number {
  const seen = sizeOf(boxOfSurePoints(observation));
  return observation.beyond === undefined ? seen : Math.max(seen, TRUNKS_TALL * observation.beyond.trunk);
}

interface PointInQuestion {
  readonly name: BodyPoint;
  readonly index: number;
  readonly size: number;
  /** The joint it hangs on, for legs. */
  readonly parent: Point | undefined;
}

function weighPoint(observation: Observation, photo: Size, question: PointInQuestion): WeighedPoint {
  const { name, index, size } = question;
  const looks = observation.looks.map((votes) => votes[index]!);
  const whole = observation.whole?.votes[index];
  if (whole === undefined) return { ...looks[0]!, confidence: Math.min(looks[0]!.score, MOST_GLIMPSED) };
  const guesses: Vote[] = [];
  if (observation.beyond !== undefined) {
    const snapped = fuseVotes([...looks, whole], size);
    const outside = weighBeyond(observation.beyond, photo, question, snapped);
    if (outside !== undefined) return outside;
    guesses.push(observation.beyond.look[index]!, observation.beyond.whole[index]!);
  }
  const place = fuseVotes([...looks, whole, ...guesses], size);
  const apart = looks.map((vote) => distance(vote, place) / size).sort((a, b) => b - a);
  const confidence = chanceInside(name, {
    score: meanOf(looks.map((vote) => vote.score)),
    lookSpread: meanOf(apart.slice(0, 2)),
    wholeBodyApart: distance(whole, place) / size,
    wholeBodyScore: whole.score,
  });
  return { ...place, confidence };
}

/** The point beyond the photo's edge; undefined where what speaks for it lies inside. */
function weighBeyond(
  view: ViewBeyond,
  photo: Size,
  { name, index, size, parent }: PointInQuestion,
  snapped: Point,
): WeighedPoint | undefined {
  const look = view.look[index]!;
  const whole = view.whole[index]!;
  const expected = expectedPlace(name, { parent, snapped, down: view.down, trunk: view.trunk });
  const guesses = [look, whole].map(atLeastHeard);
  if (expected !== undefined) guesses.push({ ...expected, score: SCORE_OF_EXPECTED });
  const place = fuseVotes(guesses, size);
  const beyond = distanceBeyond(place, photo) / size;
  if (beyond === 0) return undefined;
  const agreement = {
    score: look.score,
    apart: distance(look, whole) / size,
    beyond,
    ...(expected && { unexpected: distance(expected, place) / size }),
  };
  return { ...place, confidence: chanceBeyond(name, agreement) };
}

function atLeastHeard(vote: Vote): Vote {
  return { ...vote, score: Math.max(vote.score, LEAST_SCORE_BEYOND) };
}

/** How far outside the photo a place is; 0 inside. */
function distanceBeyond({ x, y }: Point, { width, height }: Size): number {
  return Math.max(0, -x, -y, x - width, y - height);
}

function meanOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
}
