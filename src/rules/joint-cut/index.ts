import type { HalfSpace } from '../../geometry/half-space.ts';
import { atLeast, atMost } from '../../geometry/half-space.ts';
import { distance, middleOf } from '../../geometry/points.ts';
import type { EdgeName, Edges } from '../../geometry/shapes.ts';
import type { Figure } from '../../people/figure.ts';
import type { FoundJoint } from '../../people/found-joints.ts';
import type { FoundPart } from '../../people/found-parts.ts';
import { across, along, bodyOut, isVertical, spanEdges } from '../limits.ts';
import { isClear } from '../near-edges.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords, partWords, percent, sideWords, verb } from '../words.ts';
import { adviceFor } from './advice.ts';
import { addBentLimit, BENT_LIMBS } from './bent-limb.ts';
import { crossing } from './crossing.ts';
import { limitOf } from './cut-limit.ts';
import { fineRange, JOINT_CUT_SETTINGS, type JointCutSettings } from './settings.ts';

export const jointCut = defineRule({
  id: 'joint-cut',
  summary: 'An edge cuts a body at a hip, knee, ankle, elbow or wrist, at the shoulder line or through the neck.',
  severity: 'warning',
  unit: 'percent of the limb: how far the edge lies past the joint (value), how near it may come (limit)',
  weight: WEIGHT.joint,
  settings: JOINT_CUT_SETTINGS,
  messages: {
    cut: (argument, value) => {
      const edge = argument['edge'] as EdgeName;
      const joint = String(argument['joint']);
      return (
        `The ${edgeWords(edge)} ${verb(argument, 'cuts')} the ${partWords(joint)} of person ` +
        `${String(argument['person'])} (${where(edge, value)}). ${adviceFor(joint, edge)}`
      );
    },
    bent: (argument) => {
      const joint = String(argument['joint']);
      const limb = joint.endsWith('elbow') ? 'arm' : 'leg';
      return (
        `The ${edgeWords(argument['edge'] as EdgeName)} ${verb(argument, 'cuts')} off the ${partWords(joint)} of person ` +
        `${String(argument['person'])}: the ${limb} leaves the picture and comes back. Open until the whole ${limb} is in, or ` +
        'come in until no more than its upper half is.'
      );
    },
  },
  bodyLimits: (figure, settings, edges, at) => {
    const limits: Limit[] = [];
    for (const edge of edges) {
      const out = bodyOut(edge, figure);
      for (const joint of figure.joints) addBandLimit(limits, figure, edge, joint, settings.band, out, at);
      for (const part of figure.parts) addCrossingLimits(limits, figure, edge, part, settings, out, at);
      for (const limb of BENT_LIMBS) addBentLimit(limits, figure, edge, limb, settings.band, out, at);
      addNeckLimit(limits, figure, edge, out, at);
    }
    return limits;
  },
  bodyReach: ({ joints }, { band }) => joints.reduce((reach, { limb }) => Math.max(reach, (band / 100) * limb), 0),
});

function where(edge: EdgeName, value: number): string {
  if (Math.abs(value) < 0.5) return 'right through it';
  return `${percent(value)} of the limb ${sideWords(edge, value)}`;
}

/** No edge nearer to a joint than a share of the longest limb that ends there. */
function addBandLimit(
  limits: Limit[],
  figure: Figure,
  edge: EdgeName,
  { joint, place, limb }: FoundJoint,
  bandPercent: number,
  out: HalfSpace,
  at: Edges | undefined,
): void {
  const band = (bandPercent / 100) * limb;
  const middle = across(edge, place);
  if (isClear(at, edge, middle - band, middle + band)) return;
  const position = along(edge, place);
  const [start, end] = spanEdges(edge);
  const escapes = [
    atMost(edge, middle - band),
    atLeast(edge, middle + band),
    atLeast(start, position),
    atMost(end, position),
    out,
  ];
  limits.push(limitOf('cut', figure, edge, joint, middle, limb, place.confidence, escapes, bandPercent));
}

/** No edge through a part of the body outside the range where a cut is fine. */
function addCrossingLimits(
  limits: Limit[],
  figure: Figure,
  edge: EdgeName,
  { segment, from, to }: FoundPart,
  settings: JointCutSettings,
  out: HalfSpace,
  at: Edges | undefined,
): void {
  const { kind } = segment;
  if (isVertical(edge) && kind === 'torso') return;
  const start = across(edge, from);
  const end = across(edge, to);
  if (isClear(at, edge, Math.min(start, end), Math.max(start, end))) return;
  const [fineFrom, fineTo] = fineRange(kind, settings);
  const length = distance(from, to);
  const confidence = Math.min(from.confidence, to.confidence);
  // A shoulder cut from the side is how a tight portrait looks; from above or below it is not.
  if (!isVertical(edge) || kind !== 'upper-arm') {
    const upper = crossing(edge, from, to, 0, fineFrom, out, at);
    if (upper) limits.push(limitOf('cut', figure, edge, segment.from, start, length, confidence, upper, undefined));
  }
  const lower = crossing(edge, from, to, fineTo, 1, out, at);
  if (lower) limits.push(limitOf('cut', figure, edge, segment.to, end, length, confidence, lower, undefined));
}

/** The neck reaches a little past the shoulder line, so that no edge is fine on the very line where the torso begins. */
const NECK_END = 1.01;

/** No upper or lower edge through the neck, from the chin to the shoulders. */
function addNeckLimit(limits: Limit[], figure: Figure, edge: EdgeName, out: HalfSpace, at: Edges | undefined): void {
  const { left_shoulder: left, right_shoulder: right } = figure.points;
  if (isVertical(edge) || !figure.face || !left || !right) return;
  const shoulders = middleOf(left, right);
  const { chin } = figure.face;
  const escapes = crossing(edge, chin, shoulders, 0, NECK_END, out, at);
  if (!escapes) return;
  const confidence = Math.min(left.confidence, right.confidence, figure.face.confidence);
  const middle = (chin.y + shoulders.y) / 2;
  limits.push(limitOf('cut', figure, edge, 'neck', middle, distance(chin, shoulders), confidence, escapes, undefined));
}
