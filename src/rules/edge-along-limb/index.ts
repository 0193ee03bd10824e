import { atLeast, atMost } from '../../geometry/half-space.ts';
import type { EdgeName, Edges } from '../../geometry/shapes.ts';
import { firmnessOf } from '../../people/confidence.ts';
import type { Figure } from '../../people/figure.ts';
import type { FoundPart } from '../../people/found-parts.ts';
import { measuringError } from '../../people/measuring-error.ts';
import { across, along, bodyOut, outOfSpan, past, pixels } from '../limits.ts';
import { isClear } from '../near-edges.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords, verb } from '../words.ts';

const NAMES = { thigh: 'thigh', shin: 'lower leg', 'upper-arm': 'upper arm', forearm: 'forearm' } as const;

export const edgeAlongLimb = defineRule({
  id: 'edge-along-limb',
  summary: 'An edge runs lengthwise inside an arm or leg over half its length.',
  severity: 'warning',
  unit: 'percent of the person’s height: how far the edge lies past the middle of the limb (value), half its width (limit)',
  weight: WEIGHT.edge,
  settings: {
    arm: { default: 2.2, minimum: 0, maximum: 20, unit: '%', help: 'Half the width of an arm, of the height.' },
    leg: { default: 3.5, minimum: 0, maximum: 20, unit: '%', help: 'Half the width of a leg, of the height.' },
  },
  messages: {
    along: (argument) =>
      `The ${String(argument['edge'])} ${verb(argument, 'runs')} lengthwise inside the ${String(argument['limb'])} of person ` +
      `${String(argument['person'])}. Open until the whole limb is in, or come in past it.`,
  },
  bodyLimits: (figure, settings, edges, at) => {
    const limits: Limit[] = [];
    for (const part of figure.parts) {
      const { kind } = part.segment;
      const isLeg = kind === 'thigh' || kind === 'shin';
      for (const edge of edges) {
        const limit = alongLimit(figure, part, edge, isLeg ? settings.leg : settings.arm, at);
        if (limit) limits.push(limit);
      }
    }
    return limits;
  },
  bodyReach: (figure, { arm, leg }) => (Math.max(arm, leg) / 100) * figure.height,
});

function alongLimit(
  figure: Figure,
  { segment, from: a, to: b }: FoundPart,
  edge: EdgeName,
  halfWidthPercent: number,
  at: Edges | undefined,
): Limit | undefined {
  if (segment.kind === 'torso') return undefined;
  const halfWidth = (halfWidthPercent / 100) * figure.height;
  const run = Math.abs(across(edge, b) - across(edge, a));
  // Too slanted to hold the edge over half of its length, or nothing but a foreshortened stump.
  if (run > 4 * halfWidth || Math.abs(along(edge, b) - along(edge, a)) < 2 * halfWidth) return undefined;
  const middle = (across(edge, a) + across(edge, b)) / 2;
  if (isClear(at, edge, middle - halfWidth, middle + halfWidth)) return undefined;
  const halfway = (along(edge, a) + along(edge, b)) / 2;
  const confidence = Math.min(a.confidence, b.confidence);
  return {
    message: 'along',
    arguments: { edge: edgeWords(edge), limb: `${segment.side} ${NAMES[segment.kind]}`, person: figure.id },
    escapes: [
      atMost(edge, middle - halfWidth),
      atLeast(edge, middle + halfWidth),
      ...outOfSpan(edge, halfway, halfway),
      bodyOut(edge, figure),
    ],
    deeper: measuringError(figure, 'outline', confidence),
    edge,
    person: figure.id,
    joint: segment.to,
    possible: firmnessOf(confidence) !== 'firm',
    measure: { of: past(edge, middle), per: pixels(figure.height) },
    bound: halfWidthPercent,
  };
}
