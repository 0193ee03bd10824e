import { atLeast, atMost, excess } from '../../geometry/half-space.ts';
import type { Edges } from '../../geometry/shapes.ts';
import { isInCrop, type Figure } from '../../people/figure.ts';
import { boxOut } from '../limits.ts';
import type { Limit } from '../rule.ts';
import type { Scene } from '../scene.ts';

/**
 * One limit when the crop shows nobody: every subject's face lies wholly outside, nobody stands in it without a face
 * (that is told of its own) and nobody was photographed from behind. The way out is towards the tallest subject's face.
 */
export function nobodyLimits({ counted, crop }: Scene): Limit[] {
  const tallest = counted.reduce<Figure | undefined>(
    (most, figure) => (figure.face && !(most && most.height >= figure.height) ? figure : most),
    undefined,
  );
  if (!tallest?.face || counted.some((figure) => isShown(figure, crop))) return [];
  const { box } = tallest.face;
  const ways = [
    atMost('left', box.left),
    atMost('top', box.top),
    atLeast('right', box.right),
    atLeast('bottom', box.bottom),
  ];
  const furthest = ways.reduce((most, way) => (excess(way, crop) > excess(most, crop) ? way : most));
  return [{ message: 'nobody', arguments: {}, escapes: [furthest], deeper: 0 }];
}

/** Whether the figure, or part of the face of the figure, can be seen; a body below the top edge is told elsewhere. */
function isShown(figure: Figure, crop: Edges): boolean {
  if (!figure.face) return isInCrop(figure, crop);
  const isFaceOut = boxOut(figure.face.box).some((way) => excess(way, crop) <= 0);
  return !isFaceOut || (crop.top > figure.face.box.bottom && isInCrop(figure, crop));
}
