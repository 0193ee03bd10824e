import { turnPoint } from '../../geometry/turning.ts';
import { SURE_LINES } from '../../people/person.ts';
import { levelDegrees } from '../levelling.ts';
import type { Scene } from '../scene.ts';

/** An axis that leans by more than this in the frame, in degrees, is no upright line of it. */
const MOST_LEAN = 3;

/** Where the scene's own upright line of symmetry lies in the turned picture, in pixels; undefined when unsure. */
export function symmetryAxis(scene: Pick<Scene, 'photo' | 'degrees' | 'tilt' | 'symmetry'>): number | undefined {
  const { photo, degrees, symmetry } = scene;
  if (!symmetry || symmetry.confidence < SURE_LINES) return undefined;
  if (Math.abs(degrees - (levelDegrees(scene) ?? 0)) > MOST_LEAN) return undefined;
  return turnPoint({ x: symmetry.x * photo.width, y: photo.height / 2 }, photo, degrees).x;
}
