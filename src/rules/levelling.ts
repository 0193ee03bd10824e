import { largestInside } from '../geometry/largest-inside.ts';
import type { Edges, Point } from '../geometry/shapes.ts';
import { heightOf, widthOf } from '../geometry/shapes.ts';
import { turnPoint } from '../geometry/turning.ts';
import { SURE_LINES } from '../people/person.ts';
import { turnedTo, type Scene } from './scene.ts';

/** The `straighten` value that would level the photo, as a manifest writes it (two decimals); undefined when unsure. */
export function levelDegrees({ tilt }: Pick<Scene, 'tilt'>): number | undefined {
  if (!tilt || tilt.confidence < SURE_LINES) return undefined;
  return Math.round(tilt.degrees * 100) / 100;
}

/** Whether the photo's horizon was seen. */
export function isHorizonSeen({ horizon }: Pick<Scene, 'horizon'>): boolean {
  return horizon !== undefined && horizon.confidence >= SURE_LINES;
}

/** Where the middle of the scene's crop lies once the picture is turned to `degrees`. */
function turnedMiddle({ crop, photo, degrees: before }: Scene, degrees: number): Point {
  const middle = { x: (crop.left + crop.right) / 2, y: (crop.top + crop.bottom) / 2 };
  return turnPoint(middle, photo, degrees - before);
}

/** The scene's crop in the picture turned to `degrees`, of the same size, around the same place: it may leave the photo. */
export function turnedCrop(scene: Scene, degrees: number): Edges {
  const { x, y } = turnedMiddle(scene, degrees);
  const width = widthOf(scene.crop);
  const height = heightOf(scene.crop);
  return { left: x - width / 2, top: y - height / 2, right: x + width / 2, bottom: y + height / 2 };
}

/** The frame turned to `degrees` with the largest crop of its shape, no larger than it is, that stays in the photo. */
export function levelledScene(scene: Scene, degrees: number): Scene {
  const { crop, photo } = scene;
  const shape = widthOf(crop) / heightOf(crop);
  const highest = heightOf(crop);
  return turnedTo(
    scene,
    degrees,
    largestInside(photo, degrees, { shape, near: turnedMiddle(scene, degrees), highest }),
  );
}
