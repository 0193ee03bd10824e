import { CORNER_TOLERANCE, insidePhoto, isInsidePhoto } from '../../geometry/crop.ts';
import type { HalfSpace } from '../../geometry/half-space.ts';
import { excess } from '../../geometry/half-space.ts';
import type { EdgeName } from '../../geometry/shapes.ts';
import { EDGE_NAMES } from '../../geometry/shapes.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import type { Scene } from '../scene.ts';
import { WEIGHT } from '../weights.ts';
import { edgesWords } from '../words.ts';

export const outsidePhoto = defineRule({
  id: 'outside-photo',
  summary: 'A corner of the crop lies outside the photo.',
  severity: 'error',
  unit: 'pixels that a corner may lie outside (limit); no value is given',
  weight: WEIGHT.shape,
  settings: {},
  messages: {
    outside: ({ edges, turned }) =>
      turned
        ? `The turned photo does not reach the ${String(edges)} of the crop: an empty corner would show. Come in, or turn less.`
        : `The crop goes past the photo's ${String(edges)}. Come in to the photo's edge.`,
  },
  limits: (scene) => {
    if (scene.isFixed) return isInsidePhoto(scene.crop, scene.photo, scene.degrees) ? [] : together(scene);
    return edgeConditions(scene).map((condition) => limitOf([condition], scene));
  },
});

interface EdgeCondition {
  readonly edge: EdgeName;
  readonly inside: HalfSpace;
}

/** Each condition, told of the edge that it binds most. */
function edgeConditions({ photo, degrees }: Scene): EdgeCondition[] {
  return insidePhoto(photo, degrees).map((condition) => {
    const edge = EDGE_NAMES.reduce((most, name) =>
      Math.abs(condition[name]) > Math.abs(condition[most]) ? name : most,
    );
    return { edge, inside: { ...condition, atMost: condition.atMost + CORNER_TOLERANCE } };
  });
}

/** A crop that goes past several edges has one fault, not one for each. */
function together(scene: Scene): Limit[] {
  const missed = edgeConditions(scene).filter(({ inside }) => excess(inside, scene.crop) > 0);
  return missed.length > 0 ? [limitOf(missed, scene)] : [];
}

/** @param missed at least one; a crop that meets none of them breaks the limit */
function limitOf(missed: readonly EdgeCondition[], { degrees }: Scene): Limit {
  const edges = EDGE_NAMES.filter((name) => missed.some(({ edge }) => edge === name));
  return {
    message: 'outside',
    arguments: { edges: edgesWords(edges), turned: degrees === 0 ? 0 : 1 },
    escapes: missed.map(({ inside }) => inside),
    deeper: 0,
    ...(edges.length === 1 && { edge: edges[0]! }),
    bound: CORNER_TOLERANCE,
  };
}
