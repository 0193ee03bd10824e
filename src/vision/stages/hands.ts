import type { Point } from '../../geometry/shapes.ts';
import { handPoints, type HandPoint, type Side } from '../../people/points.ts';
import type { Region } from '../image/grid.ts';
import type { Pyramid } from '../image/pyramid.ts';
import { EXTRA, type WholeBody } from '../models/blazepose.ts';
import { seeHand } from '../models/handlandmark.ts';
import type { ModelSet } from '../models/model-set.ts';
import { distance, middleOf } from '../../geometry/points.ts';
import { voteOf } from '../models/vote.ts';
import type { WeighedBody, WeighedPoint } from './weigh.ts';

/** A wrist less sure than this is no place to look for a hand. */
const LEAST_WRIST = 0.3;
/** The region's side: by the way from wrist to knuckles, but at least this share of the person's size. */
const SIDE_BY_KNUCKLES = 3.6;
const LEAST_SIDE = 0.15;

/** How sure a hand's points can be. The model's own flag alone is no proof (blurred hands score high). */
const MOST = { clear: 0.85, faint: 0.6, disputed: 0.3 };
const PRESENT = 0.8;
/** The two models' knuckles agree when they are nearer than this share of the person's size. */
const AGREED = 0.025;
const HALF_AGREED = 0.05;

/** Places in the hand's 21 points: root, knuckles (of the thumb the second point) and fingertips. */
const WRITTEN = [0, 2, 4, 5, 8, 9, 12, 13, 16, 17, 20];
const FOREFINGER_KNUCKLE = 5;
const PINKY_KNUCKLE = 17;

/** Root, knuckles and fingertips of one hand; empty where the wrist is not known well enough. */
export async function findHand(
  models: ModelSet,
  picture: Pyramid,
  side: Side,
  { body, whole, size }: { readonly body: WeighedBody; readonly whole: WholeBody; readonly size: number },
): Promise<Map<HandPoint, WeighedPoint>> {
  const wrist = body.get(`${side}_wrist`)!;
  if (wrist.confidence < LEAST_WRIST) return new Map();
  const knuckles = knucklesOf(whole, side, wrist);
  const { points, presence } = await seeHand(models, picture, regionOf(wrist, knuckles, size));
  const apart = distance(middleOf(points[FOREFINGER_KNUCKLE]!, points[PINKY_KNUCKLE]!), knuckles) / size;
  const confidence = Math.min(wrist.confidence, mostOf(presence, apart));
  const names = handPoints(side);
  return new Map(WRITTEN.map((index) => [names[index]!, { ...points[index]!, confidence }]));
}

/** The middle of the knuckles: the whole-body model's way from its own wrist, laid on the wrist that all models agree on. */
function knucklesOf(whole: WholeBody, side: Side, wrist: Point): Point {
  const own = voteOf(whole.votes, `${side}_wrist`);
  const middle = middleOf(whole.points[EXTRA[side].indexKnuckle]!, whole.points[EXTRA[side].pinkyKnuckle]!);
  return { x: wrist.x + middle.x - own.x, y: wrist.y + middle.y - own.y };
}

function regionOf(wrist: Point, knuckles: Point, size: number): Region {
  return {
    centre: knuckles,
    side: Math.max(SIDE_BY_KNUCKLES * distance(wrist, knuckles), LEAST_SIDE * size),
    angle: Math.atan2(knuckles.x - wrist.x, wrist.y - knuckles.y),
  };
}

function mostOf(presence: number, apart: number): number {
  if (apart <= AGREED && presence >= PRESENT) return MOST.clear;
  return apart <= HALF_AGREED ? MOST.faint : MOST.disputed;
}
