import { CORNER_TOLERANCE, insidePhoto, isInsidePhoto } from '../../geometry/crop.ts';
import type { HalfSpace } from '../../geometry/half-space.ts';
import type { EdgeName } from '../../geometry/shapes.ts';
import { EDGE_NAMES } from '../../geometry/shapes.ts';
import { defineRule } from '../rule.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords } from '../words.ts';

export const outsidePhoto = defineRule({
  id: 'outside-photo',
  summary: 'A corner of the crop lies outside the photo.',
  severity: 'error',
  unit: 'pixels that a corner may lie outside (limit); no value is given',
  weight: WEIGHT.shape,
  settings: {},
  messages: {
    outside: ({ edge, turned }) =>
      turned
        ? `The turned photo does not reach the ${String(edge)} of the crop: an empty corner would show. Come in, or turn less.`
        : `The crop goes past the photo's ${String(edge)}. Come in to the photo's edge.`,
  },
  limits: (scene) => {
    if (scene.isFixed && isInsidePhoto(scene.crop, scene.photo, scene.degrees)) return [];
    return worstPerEdge(insidePhoto(scene.photo, scene.degrees)).map(([edge, escapes]) => ({
      message: 'outside',
      arguments: { edge: edgeWords(edge), turned: scene.degrees === 0 ? 0 : 1 },
      escapes,
      deeper: 0,
      edge,
      bound: CORNER_TOLERANCE,
    }));
  },
});

/** One limit per condition, told of the edge that it binds most. */
function worstPerEdge(conditions: readonly HalfSpace[]): [EdgeName, HalfSpace[]][] {
  return conditions.map((condition) => {
    const edge = EDGE_NAMES.reduce((most, name) =>
      Math.abs(condition[name]) > Math.abs(condition[most]) ? name : most,
    );
    return [edge, [{ ...condition, atMost: condition.atMost + CORNER_TOLERANCE }]];
  });
}
