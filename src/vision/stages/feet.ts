import type { Point } from '../../geometry/shapes.ts';
import { SIDES, type FootPoint } from '../../people/points.ts';
import { EXTRA, type WholeBody } from '../models/blazepose.ts';
import { middleOf } from '../../geometry/points.ts';
import { voteOf } from '../models/vote.ts';
import type { WeighedBody, WeighedPoint } from './weigh.ts';

/** Toes and heels are never surer than this: they hang on the ankle and on one model's word. */
const MOST = 0.85;
const VISIBLE = 0.7;

/**
 * Big toes and heels, which only the whole-body model knows. Its ankle may be a little off: half of that error is taken
 * out (all of it was worse on some photos, none on others).
 */
export function findFeet(body: WeighedBody, whole: WholeBody): Map<FootPoint, WeighedPoint> {
  const feet = new Map<FootPoint, WeighedPoint>();
  for (const side of SIDES) {
    const ankle = body.get(`${side}_ankle`)!;
    const own = voteOf(whole.votes, `${side}_ankle`);
    const place = (point: Point): Point =>
      middleOf(point, { x: point.x + ankle.x - own.x, y: point.y + ankle.y - own.y });
    const toe = whole.points[EXTRA[side].toe]!;
    const heel = whole.points[EXTRA[side].heel]!;
    feet.set(`${side}_big_toe`, { ...place(toe), confidence: confidenceOf(ankle, toe.score) });
    feet.set(`${side}_heel`, { ...place(heel), confidence: confidenceOf(ankle, heel.score) });
  }
  return feet;
}

function confidenceOf(ankle: WeighedPoint, score: number): number {
  return Math.min(ankle.confidence, MOST) * Math.min(1, score / VISIBLE);
}
