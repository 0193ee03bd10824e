import { regionLimits, regionReach } from '../region-limits.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { verb } from '../words.ts';

export const handCut = defineRule({
  id: 'hand-cut',
  summary: 'An edge runs through a hand: wrist, knuckles and fingertips are in or well out.',
  severity: 'warning',
  unit: 'percent of the forearm: how far the edge lies past the middle of the hand (value), the margin (limit)',
  weight: WEIGHT.extremity,
  settings: {
    margin: {
      default: 4,
      minimum: 0,
      maximum: 50,
      unit: '%',
      help: 'How far an edge keeps from a hand, in percent of the forearm.',
    },
  },
  messages: {
    cut: (argument) =>
      `The ${String(argument['edge'])} ${verb(argument, 'cuts')} the ${String(argument['side'])} hand of person ` +
      `${String(argument['person'])}. Open until the whole hand is in, or come in to the middle of the forearm.`,
  },
  bodyLimits: (figure, { margin }, edges, at) =>
    figure.hands.flatMap((region) => regionLimits(figure, region, 'hand', margin, edges, at)),
  bodyReach: (figure, { margin }) => regionReach(figure.hands, margin),
});
