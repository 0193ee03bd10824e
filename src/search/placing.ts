import { effectiveEdges, isInsidePhoto, roundCrop } from '../geometry/crop.ts';
import { middleOf } from '../geometry/points.ts';
import type { Edges, Rectangle } from '../geometry/shapes.ts';
import { heightOf, rectangleOf, widthOf } from '../geometry/shapes.ts';
import { symmetryAxis } from '../rules/placement/axis.ts';
import { linesOf } from '../rules/placement/index.ts';
import type { Scene } from '../rules/scene.ts';

/** The present crop moved so that the subject stands where the composition wants it. */
export interface Placed {
  readonly title: string;
  readonly crop: Rectangle;
  readonly edges: Edges;
}

const THIRDS = [1 / 3, 2 / 3];

/**
 * Crops of the present size, best first, that put one subject, or the middle of a couple, onto the nearest intersection
 * of the thirds, then onto each upright line; in a centred frame the scene’s own line of symmetry, or the subject, into
 * the middle. Only those inside the photo.
 */
export function placedCrops(scene: Scene): Placed[] {
  const { crop, composition } = scene;
  const faces = scene.facing.flatMap(({ face }) => face ?? []);
  if (composition === 'free' || faces.length === 0 || faces.length > 2) return [];
  const eyes = middleOf(...faces.map((face) => face.eyes));
  const across = (lines: readonly number[]) => movesTo(lines, eyes.x, crop.left, widthOf(crop));
  const down = movesTo(THIRDS, eyes.y, crop.top, heightOf(crop));
  if (composition === 'centred') {
    const axis = symmetryAxis(scene);
    const onAxis = axis === undefined ? [] : movesTo(linesOf(scene), axis, crop.left, widthOf(crop));
    return [
      ...onAxis.flatMap((x) => moved(scene, x, 0, 'Bring the scene’s line of symmetry into the centre')),
      ...across(linesOf(scene)).flatMap((x) => moved(scene, x, 0, 'Bring the subject into the centre')),
    ];
  }
  return [
    ...moved(scene, across(THIRDS)[0]!, down[0]!, 'Bring the subject onto the nearest intersection of the thirds'),
    ...across(linesOf(scene)).flatMap((x) => moved(scene, x, 0, 'Bring the subject onto a line')),
  ];
}

/** The moves that put a place on each of the lines, the shortest first. */
function movesTo(lines: readonly number[], place: number, start: number, size: number): number[] {
  return lines.map((line) => place - (start + line * size)).sort((a, b) => Math.abs(a) - Math.abs(b));
}

function moved({ crop, photo, degrees }: Scene, x: number, y: number, what: string): Placed[] {
  const edges = { left: crop.left + x, top: crop.top + y, right: crop.right + x, bottom: crop.bottom + y };
  if (!isInsidePhoto(edges, photo, degrees)) return [];
  const written = roundCrop(rectangleOf(edges, photo));
  const moves = [
    ...(Math.round(x) === 0 ? [] : [`${Math.abs(Math.round(x))} px ${x < 0 ? 'left' : 'right'}`]),
    ...(Math.round(y) === 0 ? [] : [`${Math.abs(Math.round(y))} px ${y < 0 ? 'up' : 'down'}`]),
  ];
  const title = `${what}: the crop moves ${moves.join(' and ') || 'by less than a pixel'}`;
  return [{ title, crop: written, edges: effectiveEdges(written, photo, degrees) }];
}
