import { atLeast, atMost } from '../../geometry/half-space.ts';
import { middleOf } from '../../geometry/points.ts';
import type { EdgeName, Edges } from '../../geometry/shapes.ts';
import { firmnessOf } from '../../people/confidence.ts';
import type { Figure } from '../../people/figure.ts';
import { measuringError } from '../../people/measuring-error.ts';
import { across, along, bodyOut, outOfSpan, past, pixels } from '../limits.ts';
import { isClear } from '../near-edges.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords, verb } from '../words.ts';

/** A body seen from its side is at least so wide to either side of its middle, as a share of the person's height. */
const LEAST_HALF_WIDTH = 0.05;
/** The joints of shoulder and hip lie under the skin by this share of the person's height. */
const SKIN = 0.02;

export const edgeAlongBody = defineRule({
  id: 'edge-along-body',
  summary: 'An edge runs lengthwise through a body, between the shoulders and hips.',
  severity: 'warning',
  unit: 'percent of the person’s height: how far the edge lies past the middle of the body (value)',
  weight: WEIGHT.body,
  settings: {},
  messages: {
    along: (argument) =>
      `The ${String(argument['edge'])} ${verb(argument, 'runs')} lengthwise through the body of person ` +
      `${String(argument['person'])}. Open until both shoulders are in, come in to head and shoulders, or leave the person out.`,
  },
  bodyLimits: (figure, _, edges, at) => edges.flatMap((edge) => alongLimit(figure, edge, at)),
  bodyReach: (figure) => LEAST_HALF_WIDTH * figure.height,
});

/** No edge lengthwise between the shoulders and hips, with the middle of the body within the crop's span. */
function alongLimit(figure: Figure, edge: EdgeName, at: Edges | undefined): Limit[] {
  const { left_shoulder, right_shoulder, left_hip, right_hip } = figure.points;
  if (!left_shoulder || !right_shoulder || !left_hip || !right_hip) return [];
  const corners = [left_shoulder, right_shoulder, left_hip, right_hip];
  const shoulders = middleOf(left_shoulder, right_shoulder);
  const hips = middleOf(left_hip, right_hip);
  const length = Math.abs(along(edge, hips) - along(edge, shoulders));
  const run = Math.abs(across(edge, hips) - across(edge, shoulders));
  if (run > length || length < 2 * LEAST_HALF_WIDTH * figure.height) return [];
  const middle = (across(edge, shoulders) + across(edge, hips)) / 2;
  const halfway = (along(edge, shoulders) + along(edge, hips)) / 2;
  const reach = (LEAST_HALF_WIDTH - SKIN) * figure.height;
  const skin = SKIN * figure.height;
  let [low, high] = [middle - reach, middle + reach];
  for (const corner of corners) {
    low = Math.min(low, across(edge, corner));
    high = Math.max(high, across(edge, corner));
  }
  if (isClear(at, edge, low - skin, high + skin)) return [];
  const confidence = Math.min(
    left_shoulder.confidence,
    right_shoulder.confidence,
    left_hip.confidence,
    right_hip.confidence,
  );
  return [
    {
      message: 'along',
      arguments: { edge: edgeWords(edge), person: figure.id },
      escapes: [
        atMost(edge, low - skin),
        atLeast(edge, high + skin),
        ...outOfSpan(edge, halfway, halfway),
        bodyOut(edge, figure),
      ],
      deeper: measuringError(figure, 'outline', confidence),
      edge,
      person: figure.id,
      possible: firmnessOf(confidence) !== 'firm',
      measure: { of: past(edge, middle), per: pixels(figure.height) },
    },
  ];
}
