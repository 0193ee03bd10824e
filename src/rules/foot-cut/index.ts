import { FIRM } from '../../people/confidence.ts';
import type { Figure } from '../../people/figure.ts';
import { measuringError } from '../../people/measuring-error.ts';
import { bodyOut, clearOf, past, pixels } from '../limits.ts';
import { regionLimits, regionReach } from '../region-limits.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords, verb } from '../words.ts';

/** How much of a long dress above its hem reads as the hem, as a share of the person's height (common practice, no source). */
const HEM_SHARE = 0.06;

export const footCut = defineRule({
  id: 'foot-cut',
  summary: 'An edge runs through a foot, or through the hem or train that hides it.',
  severity: 'warning',
  unit: 'percent of the lower leg: how far the edge lies past the middle of the foot (value), the margin (limit)',
  weight: WEIGHT.extremity,
  settings: {
    margin: {
      default: 4,
      minimum: 0,
      maximum: 50,
      unit: '%',
      help: 'How far an edge keeps from a foot, in percent of the lower leg.',
    },
  },
  messages: {
    cut: (argument) =>
      `The ${String(argument['edge'])} ${verb(argument, 'cuts')} the ${String(argument['side'])} foot of person ` +
      `${String(argument['person'])}. Open until both feet are in, or come up to mid-thigh.`,
    hem: (argument) =>
      `The ${String(argument['edge'])} ${verb(argument, 'cuts')} the hem of person ${String(argument['person'])}, which ` +
      'stands for the feet. Open until the whole hem is in, or come up to mid-thigh.',
  },
  bodyLimits: (figure, { margin }, edges, at) => [
    ...figure.feet.flatMap((region) => regionLimits(figure, region, 'foot', margin, edges, at)),
    ...(figure.feet.length === 0 && figure.lines.hemHidesFeet && edges.includes('bottom') ? [hemLimit(figure)] : []),
  ],
  bodyReach: (figure, { margin }) => regionReach(figure.feet, margin),
});

function hemLimit(figure: Figure): Limit {
  const { extent } = figure;
  const height = HEM_SHARE * figure.height;
  return {
    message: 'hem',
    arguments: { edge: edgeWords('bottom'), person: figure.id },
    escapes: [
      ...clearOf('bottom', extent.bottom - height, extent.bottom, extent.left, extent.right),
      bodyOut('bottom', figure),
    ],
    deeper: measuringError(figure, 'outline', FIRM),
    edge: 'bottom',
    person: figure.id,
    joint: 'hem',
    measure: { of: past('bottom', extent.bottom), per: pixels(figure.height) },
  };
}
