import type { HalfSpace } from '../geometry/half-space.ts';
import { atLeast, atMost } from '../geometry/half-space.ts';
import type { Figure } from '../people/figure.ts';
import { HAIR } from '../people/head-box.ts';
import { kneeLine } from '../people/knee-line.ts';
import type { LengthSpan } from '../people/length-spans.ts';
import { lengthSpans } from '../people/length-spans.ts';
import { facesToHold } from './conditions.ts';
import type { Point } from '../geometry/shapes.ts';
import { EDGE_NAMES } from '../geometry/shapes.ts';
import { clearOf, rangeAcross, rangeAlong } from '../rules/limits.ts';
import type { ActiveLimit } from '../rules/active-limit.ts';
import type { Scene } from '../rules/scene.ts';

/** Something that a crop would rather meet: costs `weight` times the miss of its nearest escape over the diagonal. */
export interface Wish {
  readonly escapes: readonly HalfSpace[];
  readonly weight: number;
}

/** What a pixel off each wish costs, against a pixel that one edge moves (common practice, no source). */
const AIM = 2.5;
const ON_THE_SHIN = 4;
const PRESENT_LENGTH = 0.3;
const WHOLE_SHOULDERS = 2.5;
const WHOLE_HEAD = 6;
const WHOLE_OTHER_FACE = 4;
const BY_RULE: Readonly<Record<string, number>> = {
  'eye-line': 1,
  placement: 2.5,
  'look-room': 0.5,
  horizon: 0.3,
  'narrow-place': 0.15,
};
/** Somebody else at an edge is cropped out when it is asked for, and is not worth a longer search else. */
const NOT_WISHED: ReadonlySet<string> = new Set(['edge-object']);
const OTHER_RULE = 0.5;

/** Fine but outside the aim (DESIGN, Bodies), as shares of shoulder → hip and of hip → knee. */
const OFF_AIM_ON_TORSO = [[0.12, 0.15], [0.28, 0.5], [0.75, 0.82]] as const; // prettier-ignore
const OFF_AIM_ON_THIGH = [[0.25, 0.4], [0.7, 0.8]] as const; // prettier-ignore

/** What the scene wishes of a crop: the lower edge in an aim zone and at its length, and what rules only hint at. */
export function wishesOf(scene: Scene, hints: readonly ActiveLimit[]): Wish[] {
  const wished = hints.filter(({ rule }) => !NOT_WISHED.has(rule.id));
  const ofRules = wished.map(({ rule, limit }): Wish => ({
    escapes: limit.escapes,
    weight: BY_RULE[rule.id] ?? OTHER_RULE,
  }));
  const others = scene.figures.filter((figure) => !scene.counted.includes(figure));
  const bodies = [...facesToHold(scene).flatMap(wholenessWishes), ...others.flatMap(otherFaceWishes)];
  const { tallest } = scene;
  return tallest
    ? [...lowerEdgeWishes(tallest), ...lengthWishes(scene, tallest), ...bodies, ...ofRules]
    : [...bodies, ...ofRules];
}

/** From the middle of a shoulder to the outside of the arm, as a share of the person's height. */
const ARM = 0.05;

/** Head, shoulders and hips of whoever shows a face stay between the sides, where there is room. */
function wholenessWishes(figure: Figure): Wish[] {
  const { nose, left_ear, right_ear, left_eye, right_eye } = figure.points;
  const { left_shoulder, right_shoulder, left_hip, right_hip } = figure.points;
  return [
    ...betweenSides([nose, left_ear, right_ear, left_eye, right_eye], HAIR * figure.height, WHOLE_HEAD),
    ...betweenSides([left_shoulder, right_shoulder, left_hip, right_hip], ARM * figure.height, WHOLE_SHOULDERS),
  ];
}

/** The places, with so much around them, lie between the left and the right edge. */
function betweenSides(places: readonly (Point | undefined)[], around: number, weight: number): Wish[] {
  const across = places.flatMap((place) => place?.x ?? []);
  if (across.length === 0) return [];
  const whole = [atMost('left', Math.min(...across) - around), atLeast('right', Math.max(...across) + around)];
  return whole.map((side) => ({ escapes: [side], weight }));
}

/** The face of somebody who is no subject is whole or out. */
function otherFaceWishes({ face }: Figure): Wish[] {
  if (!face) return [];
  const { box } = face;
  return EDGE_NAMES.map((edge) => {
    const [low, high] = rangeAcross(edge, box);
    const [from, to] = rangeAlong(edge, box);
    return { escapes: clearOf(edge, low, high, from, to), weight: WHOLE_OTHER_FACE };
  });
}

function lowerEdgeWishes(figure: Figure): Wish[] {
  const { shoulder, hip, sole } = figure.lines;
  const knee = kneeLine(figure);
  const outOf = (from: number, to: number, weight: number): Wish => ({
    escapes: [atMost('bottom', from), atLeast('bottom', to)],
    weight,
  });
  const on = (start: number, end: number) => (share: number) => start + share * (end - start);
  const torso = on(shoulder, hip);
  const thigh = on(hip, knee);
  return [
    ...OFF_AIM_ON_TORSO.map(([from, to]) => outOf(torso(from), torso(to), AIM)),
    ...OFF_AIM_ON_THIGH.map(([from, to]) => outOf(thigh(from), thigh(to), AIM)),
    outOf(knee, sole, ON_THE_SHIN),
  ];
}

function lengthWishes(scene: Scene, tallest: Figure): Wish[] {
  if (scene.askedLength) return [];
  const span = lengthSpans(tallest).find((candidate) => candidate.length === scene.length);
  return span ? endsOf(span).map((end) => ({ escapes: [end], weight: PRESENT_LENGTH })) : [];
}

function endsOf({ from, to }: LengthSpan): HalfSpace[] {
  return [...(from > -Infinity ? [atLeast('bottom', from)] : []), ...(to < Infinity ? [atMost('bottom', to)] : [])];
}
