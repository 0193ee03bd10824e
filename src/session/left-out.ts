import { effectiveEdges } from '../geometry/crop.ts';
import type { Rectangle } from '../geometry/shapes.ts';
import { levelledScene } from '../rules/levelling.ts';
import { withCrop, type Scene } from '../rules/scene.ts';
import { listed } from '../rules/words.ts';

/**
 * Who had a face in the crop, whole or cut, and has none in the new one: the ids of people that count. That may be what a
 * photographer wants of a passer-by, and never of half a couple, so it is said.
 * @param scene with the crop that it had
 * @param degrees what the picture is turned by now
 */
export function peopleLeftOut(scene: Scene, crop: Rectangle, degrees = scene.degrees): number[] {
  const turned = degrees === scene.degrees ? scene : levelledScene(scene, degrees);
  const now = withCrop(turned, effectiveEdges(crop, scene.photo, degrees));
  const kept = new Set(now.facing.map(({ id }) => id));
  return scene.facing.map(({ id }) => id).filter((id) => !kept.has(id));
}

/** "leaves out person 2", "leaves out people 2 and 3". */
export function leftOutWords(people: readonly number[]): string {
  return `leaves out ${people.length === 1 ? 'person' : 'people'} ${listed(people)}`;
}
