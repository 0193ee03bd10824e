import type { HalfSpace } from '../../geometry/half-space.ts';
import { atLeast, atMost } from '../../geometry/half-space.ts';
import { distance, middleOf } from '../../geometry/points.ts';
import type { EdgeName, Point } from '../../geometry/shapes.ts';
import { EDGE_NAMES } from '../../geometry/shapes.ts';
import { firmnessOf } from '../../people/confidence.ts';
import type { Figure } from '../../people/figure.ts';
import { measuringError, type PlaceKind } from '../../people/measuring-error.ts';
import { JOINTS, SEGMENTS, type Segment } from '../../people/segments.ts';
import {
  across,
  along,
  bodyOut,
  isVertical,
  lineOf,
  minus,
  notPositive,
  outOfSpan,
  past,
  pixels,
  spanEdges,
} from '../limits.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords, partWords, percent, sideWords, verb } from '../words.ts';
import { adviceFor, jointKind } from './advice.ts';
import { fineRange, JOINT_CUT_SETTINGS, type JointCutSettings } from './settings.ts';

export const jointCut = defineRule({
  id: 'joint-cut',
  summary: 'An edge cuts a body at a hip, knee, ankle, elbow or wrist, at the shoulder line or through the neck.',
  severity: 'warning',
  unit: 'percent of the limb: how far the edge lies past the joint (value), how near it may come (limit)',
  weight: WEIGHT.joint,
  settings: JOINT_CUT_SETTINGS,
  messages: {
    cut: (argument, value) =>
      `The ${String(argument['words'])} ${verb(argument, 'cuts')} the ${partWords(String(argument['joint']))} of person ` +
      `${String(argument['person'])} (${where(argument['edge'], value)}). ${String(argument['advice'])}`,
  },
  limits: (scene, settings) =>
    scene.counted.flatMap((figure) =>
      EDGE_NAMES.flatMap((edge) => [
        ...bandLimits(figure, edge, settings),
        ...crossingLimits(figure, edge, settings),
        ...neckLimit(figure, edge),
      ]),
    ),
});

function where(edge: string | number | undefined, value: number): string {
  if (Math.abs(value) < 0.5) return 'right through it';
  return `${percent(value)} ${sideWords(edge as EdgeName, value)}`;
}

/** No edge nearer to a joint than a share of the longest limb that ends there. */
function bandLimits(figure: Figure, edge: EdgeName, settings: JointCutSettings): Limit[] {
  return JOINTS.flatMap(({ joint, limbs }) => {
    const place = figure.points[joint];
    const length = longestOf(figure, limbs);
    if (!place || length === undefined) return [];
    const band = (settings.band / 100) * length;
    const middle = across(edge, place);
    const position = along(edge, place);
    const escapes = [
      atMost(edge, middle - band),
      atLeast(edge, middle + band),
      ...outOfSpan(edge, position, position),
      bodyOut(edge, figure),
    ];
    return [limitOf(figure, edge, joint, middle, length, place.confidence, escapes, settings.band)];
  });
}

function longestOf(figure: Figure, limbs: readonly Segment[]): number | undefined {
  const lengths = limbs.flatMap(({ from, to }) => {
    const a = figure.points[from];
    const b = figure.points[to];
    return a && b ? [distance(a, b)] : [];
  });
  return lengths.length > 0 ? Math.max(...lengths) : undefined;
}

/** No edge through a part of the body outside the range where a cut is fine. */
function crossingLimits(figure: Figure, edge: EdgeName, settings: JointCutSettings): Limit[] {
  return SEGMENTS.flatMap((segment) => {
    const from = figure.points[segment.from];
    const to = figure.points[segment.to];
    if (!from || !to || (isVertical(edge) && segment.kind === 'torso')) return [];
    const [fineFrom, fineTo] = fineRange(segment.kind, settings);
    const confidence = Math.min(from.confidence, to.confidence);
    const length = distance(from, to);
    const limits: Limit[] = [];
    const add = (joint: string, start: number, end: number, place: Point) => {
      const escapes = crossing(figure, edge, from, to, start, end);
      if (escapes)
        limits.push(limitOf(figure, edge, joint, across(edge, place), length, confidence, escapes, undefined));
    };
    // A shoulder cut from the side is how a tight portrait looks; from above or below it is not.
    if (!isVertical(edge) || segment.kind !== 'upper-arm') add(segment.from, 0, fineFrom, from);
    add(segment.to, fineTo, 1, to);
    return limits;
  });
}

/** The escapes of an edge that crosses the line from `a` to `b` between the shares `start` and `end` of it. */
function crossing(
  figure: Figure,
  edge: EdgeName,
  a: Point,
  b: Point,
  start: number,
  end: number,
): HalfSpace[] | undefined {
  const run = across(edge, b) - across(edge, a);
  // A part that lies along the edge is not crossed; the band around its joints and edge-along-limb see to it.
  if (Math.abs(run) < 1) return undefined;
  const ends = [across(edge, a) + start * run, across(edge, a) + end * run];
  const slope = (along(edge, b) - along(edge, a)) / run;
  const offset = along(edge, a) - slope * across(edge, a);
  const scale = Math.max(1, Math.abs(slope));
  const [first, last] = spanEdges(edge);
  // Where the crossing lies along the edge line.
  const crossingAt = minus(pixels(offset), lineOf(edge), -slope);
  const beforeSpan = minus(crossingAt, lineOf(first));
  const afterSpan = minus(lineOf(last), crossingAt);
  return [
    atMost(edge, Math.min(...ends)),
    atLeast(edge, Math.max(...ends)),
    notPositive(minus(pixels(0), beforeSpan, -1 / scale)),
    notPositive(minus(pixels(0), afterSpan, -1 / scale)),
    bodyOut(edge, figure),
  ];
}

/** The neck reaches a little past the shoulder line, so that no edge is fine on the very line where the torso begins. */
const NECK_END = 1.01;

/** No upper or lower edge through the neck, from the chin to the shoulders. */
function neckLimit(figure: Figure, edge: EdgeName): Limit[] {
  const { left_shoulder: left, right_shoulder: right } = figure.points;
  if (isVertical(edge) || !figure.face || !left || !right) return [];
  const shoulders = middleOf(left, right);
  const { chin } = figure.face;
  const escapes = crossing(figure, edge, chin, shoulders, 0, NECK_END);
  if (!escapes) return [];
  const confidence = Math.min(left.confidence, right.confidence, figure.face.confidence);
  const middle = (chin.y + shoulders.y) / 2;
  return [limitOf(figure, edge, 'neck', middle, distance(chin, shoulders), confidence, escapes, undefined)];
}

function limitOf(
  figure: Figure,
  edge: EdgeName,
  joint: string,
  middle: number,
  length: number,
  confidence: number,
  escapes: HalfSpace[],
  bound: number | undefined,
): Limit {
  return {
    message: 'cut',
    arguments: { words: edgeWords(edge), edge, joint, person: figure.id, advice: adviceFor(joint, edge) },
    escapes,
    deeper: measuringError(figure, kindOf(joint), confidence),
    edge,
    person: figure.id,
    joint,
    possible: firmnessOf(confidence) !== 'firm',
    measure: { of: past(edge, middle), per: pixels(length) },
    ...(bound !== undefined && { bound }),
  };
}

function kindOf(joint: string): PlaceKind {
  const kind = jointKind(joint);
  return kind === 'neck' ? 'shoulder' : (kind as PlaceKind);
}
