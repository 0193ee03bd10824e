import type { Edges } from '../../../src/geometry/shapes.ts';
import type { PhotoPeople } from '../../../src/people/person.ts';
import { sceneOf, type Scene } from '../../../src/rules/scene.ts';

/** A labelled photo with a crop, as the rules see it. */
export function labelledScene(photo: PhotoPeople, shape: number | undefined, crop: Edges): Scene {
  return sceneOf({
    photo: photo.size,
    degrees: 0,
    crop,
    shape,
    composition: 'thirds',
    askedLength: undefined,
    people: photo.people,
    subjects: undefined,
  });
}

/** Rules about an edge through a body. */
export const CUT_RULES: readonly string[] = ['face-cut', 'joint-cut', 'hand-cut', 'foot-cut'];
