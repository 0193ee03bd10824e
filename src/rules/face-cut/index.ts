import { atMost } from '../../geometry/half-space.ts';
import type { EdgeName } from '../../geometry/shapes.ts';
import { firmnessOf } from '../../people/confidence.ts';
import type { Face } from '../../people/face.ts';
import type { Figure } from '../../people/figure.ts';
import { measuringError } from '../../people/measuring-error.ts';
import { boxOut, clearOf, past, pixels, rangeAcross, rangeAlong } from '../limits.ts';
import { isClear } from '../near-edges.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords, verb } from '../words.ts';
import { nobodyLimits } from './nobody.ts';

export const faceCut = defineRule({
  id: 'face-cut',
  summary: 'An edge runs through a subject’s eyes, nose, mouth or chin, or the crop shows a body without its face.',
  severity: 'error',
  unit: 'percent of the face’s width or height that the edge has passed',
  weight: WEIGHT.face,
  settings: {},
  messages: {
    cut: (argument) =>
      `The ${String(argument['edge'])} ${verb(argument, 'cuts')} the face of person ${String(argument['person'])}. ` +
      'Open until the whole face is in, or leave the person out.',
    without: ({ person }) =>
      `The crop shows person ${String(person)} without their face. Open the top until the whole face is in, or leave the ` +
      'person out.',
    nobody: () => 'No subject’s face is in the crop. Move or open it until a whole face is in.',
  },
  bodyLimits: (figure, _, edges, at) => {
    const { face } = figure;
    if (!face) return [];
    const limits: Limit[] = [];
    for (const edge of edges) {
      const [low, high] = rangeAcross(edge, face.box);
      if (!isClear(at, edge, low, high)) limits.push(cutLimit(figure, face, edge));
    }
    if (edges.includes('top') && !isClear(at, 'top', face.box.bottom, Infinity))
      limits.push(withoutLimit(figure, face));
    return limits;
  },
  limits: nobodyLimits,
});

function cutLimit(figure: Figure, face: Face, edge: EdgeName): Limit {
  const [low, high] = rangeAcross(edge, face.box);
  const [from, to] = rangeAlong(edge, face.box);
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
}

/** The top edge lies under the face, and some of the body is in. */
function withoutLimit(figure: Figure, { box, confidence }: Face): Limit {
  return {
    message: 'without',
    arguments: { person: figure.id },
    escapes: [atMost('top', box.bottom), ...boxOut(figure.extent)],
    deeper: measuringError(figure, 'face', confidence),
    edge: 'top',
    person: figure.id,
    measure: { of: past('top', box.top), per: pixels(box.bottom - box.top) },
  };
}
