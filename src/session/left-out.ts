import { effectiveEdges } from '../geometry/crop.ts';
import type { Rectangle } from '../geometry/shapes.ts';
import { isInCrop } from '../people/figure.ts';
import { levelledScene } from '../rules/levelling.ts';
import { withCrop, type Scene } from '../rules/scene.ts';
import { listed } from '../rules/words.ts';

/**
 * Who was in the crop and is not any more, or the face is not: the ids of people that count. It may be meant, and with half
 * a couple it hardly is, so it is said.
 * @param scene with the crop that it had
 * @param degrees what the picture is turned by now
 */
export function peopleLeftOut(scene: Scene, crop: Rectangle, degrees = scene.degrees): number[] {
  const turned = degrees === scene.degrees ? scene : levelledScene(scene, degrees);
  const now = withCrop(turned, effectiveEdges(crop, scene.photo, degrees));
  const before = scene.counted.filter((figure) => isInCrop(figure, scene.crop));
  return before.flatMap(({ id }) => {
    const figure = now.counted.find((each) => each.id === id);
    const isLost = figure === undefined || !isInCrop(figure, now.crop) || (isFacing(scene, id) && !isFacing(now, id));
    return isLost ? [id] : [];
  });
}

function isFacing({ facing }: Scene, id: number): boolean {
  return facing.some((figure) => figure.id === id);
}

/** "leaves out person 2", "leaves out people 2 and 3". */
export function leftOutWords(people: readonly number[]): string {
  return `leaves out ${people.length === 1 ? 'person' : 'people'} ${listed(people)}`;
}
