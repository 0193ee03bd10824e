import type { HalfSpace } from '../geometry/half-space.ts';
import { atLeast, atMost } from '../geometry/half-space.ts';
import type { Figure } from '../people/figure.ts';
import { middleOf } from '../geometry/points.ts';
import type { LengthSpan } from '../people/length-spans.ts';
import { HALF_LENGTH_FROM, lengthSpans } from '../people/length-spans.ts';
import { PROPORTIONS } from '../people/proportions.ts';
import type { ActiveLimit } from '../rules/report.ts';
import type { Scene } from '../rules/scene.ts';

/** Something that a crop would rather meet: costs `weight` times the miss of its nearest escape over the diagonal. */
export interface Wish {
  readonly escapes: readonly HalfSpace[];
  readonly weight: number;
}

/** What a pixel off each wish costs, against a pixel that one edge moves (common practice, no source). */
const AIM = 2.5;
const ON_THE_SHIN = 1;
const ASKED_LENGTH = 3;
const PRESENT_LENGTH = 0.3;
const WHOLE_BODY = 8;
const WHOLE_SHOULDERS = 1.5;
const BY_RULE: Readonly<Record<string, number>> = { 'eye-line': 1, placement: 0.5 };
const OTHER_RULE = 0.5;

/** Fine but outside the aim (DESIGN, Bodies), as shares of shoulder → hip and of hip → knee. */
const OFF_AIM_ON_TORSO = [[0.12, 0.15], [0.28, 0.5], [0.75, 0.82]] as const; // prettier-ignore
const OFF_AIM_ON_THIGH = [[0.25, 0.4], [0.7, 0.8]] as const; // prettier-ignore

/** What the scene wishes of a crop: the lower edge in an aim zone and at its length, and what rules only hint at. */
export function wishesOf(scene: Scene, hints: readonly ActiveLimit[]): Wish[] {
  const ofRules = hints.map(({ rule, limit }): Wish => ({
    escapes: limit.escapes,
    weight: BY_RULE[rule.id] ?? OTHER_RULE,
  }));
  const bodies = scene.facing.flatMap(wholenessWishes);
  const { tallest } = scene;
  return tallest
    ? [...lowerEdgeWishes(tallest), ...lengthWishes(scene, tallest), ...bodies, ...ofRules]
    : [...bodies, ...ofRules];
}

/** Half an arm beside a shoulder, as a share of the person's height. */
const ARM = 0.03;

/**
 * Shoulders and hips of whoever shows a face stay between the sides: no body is cut lengthwise, but for the shoulders of
 * head and shoulders where room is short.
 */
function wholenessWishes(figure: Figure): Wish[] {
  const { left_shoulder, right_shoulder, left_hip, right_hip } = figure.points;
  const across = [left_shoulder, right_shoulder, left_hip, right_hip].flatMap((point) => point?.x ?? []);
  if (across.length === 0) return [];
  const arm = ARM * figure.height;
  const { shoulder, hip } = figure.lines;
  const tight = atMost('bottom', shoulder + HALF_LENGTH_FROM * (hip - shoulder));
  const whole = [atMost('left', Math.min(...across) - arm), atLeast('right', Math.max(...across) + arm)];
  return whole.flatMap((side) => [
    { escapes: [side, tight], weight: WHOLE_BODY },
    { escapes: [side], weight: WHOLE_SHOULDERS },
  ]);
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

/** Height of the knees where they were found, else by the proportions of hip to ankle. */
function kneeLine(figure: Figure): number {
  const { hip, ankle } = figure.lines;
  const found = [figure.points.left_knee, figure.points.right_knee].filter((point) => point !== undefined);
  const { hipToKnee, kneeToAnkle } = PROPORTIONS;
  const knee = found.length > 0 ? middleOf(...found).y : hip + ((ankle - hip) * hipToKnee) / (hipToKnee + kneeToAnkle);
  return Math.min(Math.max(knee, hip), ankle);
}

function lengthWishes(scene: Scene, tallest: Figure): Wish[] {
  const length = scene.askedLength ?? scene.length;
  const span = lengthSpans(tallest).find((candidate) => candidate.length === length);
  const weight = scene.askedLength === undefined ? PRESENT_LENGTH : ASKED_LENGTH;
  return span ? endsOf(span).map((end) => ({ escapes: [end], weight })) : [];
}

function endsOf({ from, to }: LengthSpan): HalfSpace[] {
  return [...(from > -Infinity ? [atLeast('bottom', from)] : []), ...(to < Infinity ? [atMost('bottom', to)] : [])];
}
