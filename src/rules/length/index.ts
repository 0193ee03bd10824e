import { atLeast, atMost, type HalfSpace } from '../../geometry/half-space.ts';
import type { Figure } from '../../people/figure.ts';
import { foundLength, headCutFrom, lengthSpans } from '../../people/length-spans.ts';
import { LENGTH_WORDS, rungOf, type Length } from '../../people/lengths.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';

export const length = defineRule({
  id: 'length',
  summary: 'The crop shows more or less of the tallest subject than the frame asks for.',
  severity: 'warning',
  unit: 'rungs of the ladder from full length (0) to a close-up (4): the crop’s (value), the one asked for (limit)',
  weight: WEIGHT.headroom,
  settings: {},
  messages: {
    wide: ({ found, asked }) =>
      `This is ${LENGTH_WORDS[found as Length]}; the frame asks for ${LENGTH_WORDS[asked as Length]}. Come up to it.`,
    tight: ({ found, asked }) =>
      `This is ${LENGTH_WORDS[found as Length]}; the frame asks for ${LENGTH_WORDS[asked as Length]}. Open to it.`,
  },
  limits: ({ askedLength: asked, tallest, crop }) => {
    if (!asked || !tallest) return [];
    const found = foundLength(tallest, crop);
    const limit = (message: 'wide' | 'tight', escapes: HalfSpace[]): Limit => ({
      message,
      arguments: { found, asked },
      escapes,
      deeper: 0,
      edge: 'bottom',
      person: tallest.id,
      measure: { of: { constant: rungOf(found) }, per: { constant: 100 } },
      bound: rungOf(asked),
    });
    return [
      ...tighterEnough(tallest, asked).map((escapes) => limit('wide', escapes)),
      ...widerEnough(tallest, asked).map((escapes) => limit('tight', escapes)),
    ];
  },
});

/** The lower edge's lowest place; a head cut on purpose makes a close-up of head and shoulders. */
function tighterEnough(figure: Figure, asked: Length): HalfSpace[][] {
  const { to } = spanOf(figure, asked);
  if (to === Infinity) return [];
  if (asked !== 'close-up') return [[atMost('bottom', to)]];
  const shoulders = spanOf(figure, 'head-and-shoulders').to;
  return [[atMost('bottom', shoulders)], [atMost('bottom', to), atLeast('top', headCutFrom(figure))]];
}

function widerEnough(figure: Figure, asked: Length): HalfSpace[][] {
  const { from } = spanOf(figure, asked);
  const whole = asked === 'head-and-shoulders' ? [[atMost('top', headCutFrom(figure))]] : [];
  return from === -Infinity ? [] : [[atLeast('bottom', from)], ...whole];
}

function spanOf(figure: Figure, length: Length): { from: number; to: number } {
  return lengthSpans(figure).find((span) => span.length === length)!;
}
