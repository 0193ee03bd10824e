import { CORNER_TOLERANCE, insidePhoto } from '../../geometry/crop.ts';
import type { HalfSpace } from '../../geometry/half-space.ts';
import { atLeast, atMost } from '../../geometry/half-space.ts';
import { EDGE_NAMES, type EdgeName, type Point } from '../../geometry/shapes.ts';
import { FIRM } from '../../people/confidence.ts';
import type { Figure } from '../../people/figure.ts';
import { measuringError } from '../../people/measuring-error.ts';
import { protrusions } from '../../people/protrusions.ts';
import {
  across,
  along,
  bodyOut,
  CROP_HEIGHT,
  CROP_WIDTH,
  isBefore,
  isVertical,
  minus,
  negative,
  notPositive,
  outOfSpan,
  past,
} from '../limits.ts';
import type { Limit } from '../rule.ts';
import { defineRule } from '../rule.ts';
import type { Scene } from '../scene.ts';
import { WEIGHT } from '../weights.ts';
import { edgeWords } from '../words.ts';

export const printBleed = defineRule({
  id: 'print-bleed',
  summary: 'The photo ends inside an output’s bleed, or a body stands where trimming may reach it.',
  severity: 'warning',
  unit: 'percent of the crop’s side: room between body and trimmed edge (value), the least (limit)',
  weight: WEIGHT.print,
  settings: {},
  messages: {
    ends: () =>
      'The photo ends inside the bleed, and its mirror image goes on there. Come in a little where the crop lies on its edge.',
    body: ({ edge, person }) =>
      `Person ${String(person)} comes nearer to the ${edgeWords(edge as EdgeName)} than is safe when the paper is trimmed. Leave ` +
      'more room, or cut clearly.',
  },
  limits: (scene) => {
    const { print } = scene;
    if (!print) return [];
    return [
      ...(print.bleed.x > 0 || print.bleed.y > 0 ? photoEnds(scene, print.bleed) : []),
      ...(print.safe.x > 0 || print.safe.y > 0
        ? scene.counted.flatMap((figure) => EDGE_NAMES.flatMap((edge) => bodyIsSafe(figure, edge, print.safe)))
        : []),
    ];
  },
});

/** The crop with its bleed lies in the photo; told once, however many sides it is. */
function photoEnds({ photo, degrees }: Scene, bleed: Point): Limit[] {
  return insidePhoto(photo, degrees).map((condition): Limit => ({
    message: 'ends',
    arguments: {},
    escapes: [withBleed(condition, bleed)],
    deeper: 0,
  }));
}

/** The same condition on the edges moved out by these shares of the crop's sides, as one on the crop's own edges. */
function withBleed({ left, top, right, bottom, atMost: bound }: HalfSpace, { x, y }: Point): HalfSpace {
  return {
    left: left * (1 + x) - right * x,
    right: right * (1 + x) - left * x,
    top: top * (1 + y) - bottom * y,
    bottom: bottom * (1 + y) - top * y,
    atMost: bound + CORNER_TOLERANCE,
  };
}

/** What stands out of a body keeps clear of the trimmed edge, or is cut by it anyway. */
function bodyIsSafe(figure: Figure, edge: EdgeName, safe: Point): Limit[] {
  const side = isVertical(edge) ? CROP_WIDTH : CROP_HEIGHT;
  const share = isVertical(edge) ? safe.x : safe.y;
  return protrusions(figure, edge, () => true).map((point): Limit => {
    const place = across(edge, point);
    const room = isBefore(edge) ? negative(past(edge, place)) : past(edge, place);
    return {
      message: 'body',
      arguments: {},
      escapes: [
        notPositive(minus(negative(room), side, -share)),
        isBefore(edge) ? atLeast(edge, place) : atMost(edge, place),
        ...outOfSpan(edge, along(edge, point), along(edge, point)),
        bodyOut(edge, figure),
      ],
      deeper: measuringError(figure, 'outline', FIRM) / 2,
      edge,
      person: figure.id,
      measure: { of: room, per: side },
      bound: Math.round(share * 1000) / 10,
    };
  });
}
