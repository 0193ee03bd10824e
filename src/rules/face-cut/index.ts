import { EDGE_NAMES } from '../../geometry/shapes.ts';
import { firmnessOf } from '../../people/confidence.ts';
import { measuringError } from '../../people/measuring-error.ts';
import { clearOf, past, pixels, rangeAcross, rangeAlong } from '../limits.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords, verb } from '../words.ts';

export const faceCut = defineRule({
  id: 'face-cut',
  summary: 'An edge runs through a subject’s eyes, nose, mouth or chin.',
  severity: 'error',
  unit: 'percent of the face’s width or height that the edge has passed',
  weight: WEIGHT.face,
  settings: {},
  messages: {
    cut: (argument) =>
      `The ${String(argument['edge'])} ${verb(argument, 'cuts')} the face of person ${String(argument['person'])}. ` +
      'Open until the whole face is in, or leave the person out.',
  },
  bodyLimits: (figure) => {
    const { face } = figure;
    if (!face) return [];
    const { box } = face;
    return EDGE_NAMES.map((edge) => {
      const [low, high] = rangeAcross(edge, box);
      const [from, to] = rangeAlong(edge, box);
      return {
        message: 'cut',
        arguments: { edge: edgeWords(edge), person: figure.id },
        escapes: clearOf(edge, low, high, from, to),
        deeper: measuringError(figure, 'face', face.confidence),
        edge,
        person: figure.id,
        possible: firmnessOf(face.confidence) !== 'firm',
        measure: { of: past(edge, low), per: pixels(high - low) },
      };
    });
  },
});
