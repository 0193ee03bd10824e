import { atLeast, atMost } from '../../geometry/half-space.ts';
import type { EdgeName, Edges } from '../../geometry/shapes.ts';
import { EDGE_NAMES, heightOf } from '../../geometry/shapes.ts';
import type { Figure } from '../../people/figure.ts';
import { headBox } from '../../people/head-box.ts';
import { measuringError } from '../../people/measuring-error.ts';
import { clearOf, isBefore, outOfSpan, past, negative, rangeAcross, rangeAlong } from '../limits.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import type { Scene } from '../scene.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords, percent } from '../words.ts';

export const edgeObject = defineRule({
  id: 'edge-object',
  summary: 'A limb of somebody else comes in from an edge, or half a face stands at one.',
  severity: 'info',
  unit: 'percent of the crop’s short side: how far it comes in (value)',
  weight: WEIGHT.print,
  settings: {
    least: {
      default: 15,
      minimum: 0,
      maximum: 100,
      unit: '%',
      help: 'How tall somebody must be to count, of the tallest subject’s height.',
    },
    pressing: {
      default: 40,
      minimum: 0,
      maximum: 1000,
      unit: '%',
      help: 'How tall somebody must be, of the shortest subject’s height, for half a face of theirs to be a warning.',
    },
  },
  messages: {
    limb: ({ edge, person }, value) =>
      `Person ${String(person)}, whose face is not in the picture, reaches in from the ${String(edge)} by ${percent(value)} of ` +
      'the short side. Crop them out, or open until the whole person is in.',
    face: ({ edge, person }) =>
      `The ${String(edge)} leaves part of the face of person ${String(person)}, who is no subject. Crop them out, or open until the ` +
      'face is in.',
  },
  limits: (scene, { least, pressing }): Limit[] => {
    const { tallest, figures, counted } = scene;
    if (!tallest || figures.length < 2) return [];
    const lowest = (least / 100) * heightOf(tallest.extent);
    const besides = figures.filter((figure) => isBesides(scene, figure) && heightOf(figure.extent) >= lowest);
    const large = (pressing / 100) * Math.min(...counted.map(({ height }) => height));
    return besides.flatMap((figure) => {
      // Half a subject's face is face-cut's to tell.
      const ofFace = counted.includes(figure) ? [] : faceLimits(figure, figure.height >= large);
      return [...ofFace, ...EDGE_NAMES.flatMap((edge) => limbLimits(figure, edge))];
    });
  },
});

/** Somebody who is no subject, or a subject whose face is left out of a picture that others look out of. */
function isBesides({ counted, facing }: Scene, figure: Figure): boolean {
  if (!counted.includes(figure)) return true;
  return figure.face !== undefined && facing.length > 0 && !facing.includes(figure);
}

function limbLimits(figure: Figure, edge: EdgeName): Limit[] {
  const { face, extent, id } = figure;
  const [low, high] = rangeAcross(edge, extent);
  const [from, to] = rangeAlong(edge, extent);
  // What is nearest to the picture's middle comes in first; it is in when the face is, or the whole body without one.
  const whole = face ? rangeAcross(edge, face.box) : ([low, high] as const);
  const comesIn = isBefore(edge) ? ([whole[1], high] as const) : ([low, whole[0]] as const);
  // Who is seen from behind and cut below stands in the picture: nothing comes in there.
  if (comesIn[0] >= comesIn[1] || (!face && edge === 'bottom')) return [];
  const escapes = [atMost(edge, comesIn[0]), atLeast(edge, comesIn[1]), ...outOfSpan(edge, from, to)];
  const measure = inside(edge, extent);
  return [{ message: 'limb', arguments: { edge: edgeWords(edge) }, escapes, deeper: 0, edge, person: id, measure }];
}

/** Half a face at an edge; of somebody about as large as the subjects also an ear, or the hair beside it. */
function faceLimits(figure: Figure, isLarge: boolean): Limit[] {
  const { face, id } = figure;
  const box = isLarge ? headBox(figure) : face?.box;
  if (!face || !box) return [];
  return EDGE_NAMES.map((edge) => {
    const [low, high] = rangeAcross(edge, box);
    const [from, to] = rangeAlong(edge, box);
    return {
      message: 'face',
      arguments: { edge: edgeWords(edge) },
      escapes: clearOf(edge, low, high, from, to),
      deeper: isLarge ? measuringError(figure, 'face', face.confidence) : 0,
      ...(isLarge && { presses: true }),
      edge,
      person: id,
      measure: inside(edge, box),
    };
  });
}

/** How far a box comes in from an edge. */
function inside(edge: EdgeName, box: Edges): NonNullable<Limit['measure']> {
  const [low, high] = rangeAcross(edge, box);
  return { of: isBefore(edge) ? negative(past(edge, high)) : past(edge, low), per: 'short-side' };
}
