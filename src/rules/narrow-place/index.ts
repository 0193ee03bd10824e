import { atLeast, atMost } from '../../geometry/half-space.ts';
import { widePlaces } from '../../people/narrow-places.ts';
import { widthProfile } from '../../people/width-profile.ts';
import { bodyOut, outOfSpan, past, pixels } from '../limits.ts';
import { isClear } from '../near-edges.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { percent } from '../words.ts';

export const narrowPlace = defineRule({
  id: 'narrow-place',
  summary: 'The lower edge falls where body or clothing is widest, with a narrower place near.',
  severity: 'info',
  unit: 'percent of the person’s height: how far below the narrower place the edge falls (value)',
  weight: WEIGHT.print,
  settings: {
    narrower: {
      default: 12,
      minimum: 1,
      maximum: 90,
      unit: '%',
      help: 'How much narrower the other place must be, of the width.',
    },
  },
  messages: {
    widest: ({ person }, value) =>
      `The lower edge falls on the widest part of the outline of person ${String(person)}; ${percent(value)} of the person’s ` +
      `height further ${value > 0 ? 'up' : 'down'} it narrows, and an edge there looks meant.`,
  },
  bodyLimits: (figure, { narrower }, edges, at): Limit[] => {
    const { shoulder, ankle } = figure.lines;
    if (!edges.includes('bottom') || isClear(at, 'bottom', shoulder, ankle)) return [];
    return widePlaces(widthProfile(figure), figure.height, narrower / 100).map(({ from, to, left, right, narrow }) => ({
      message: 'widest',
      arguments: {},
      escapes: [
        atMost('bottom', from),
        atLeast('bottom', to),
        ...outOfSpan('bottom', left, right),
        bodyOut('bottom', figure),
      ],
      deeper: 0,
      edge: 'bottom',
      person: figure.id,
      measure: { of: past('bottom', narrow), per: pixels(figure.height) },
    }));
  },
});
