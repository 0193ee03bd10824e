import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Person, PhotoPeople } from '../../../src/people/person.ts';
import type { Point } from '../../../src/geometry/shapes.ts';
import type { PointName } from '../../../src/people/points.ts';
import { convertAllModels } from '../../../src/vision/convert/convert-all.ts';
import { measurePhoto } from '../../../src/vision/measure.ts';
import { MODEL_SOURCE } from '../../../src/vision/models/catalogue.ts';
import { ModelSet } from '../../../src/vision/models/model-set.ts';
import { chooseRuntime } from '../../../src/vision/runtime/choose.ts';
import type { RuntimeKind } from '../../../src/vision/runtime/runtime.ts';
import type { LabelledPhoto } from './labels.ts';
import { matchPeople, type Match } from './match.ts';
import { PROJECT_FOLDER } from './project.ts';
import { foundPlaces } from '../../../src/people/places.ts';

export const MODELS_FOLDER = join(PROJECT_FOLDER, 'dist', 'models');

/** The converted models of this source, made first where they are missing or old. */
export async function loadModels(kind?: RuntimeKind): Promise<ModelSet> {
  const source = createRequire(join(PROJECT_FOLDER, 'package.json')).resolve(`${MODEL_SOURCE.package}/package.json`);
  await convertAllModels(join(dirname(source), 'models'), MODELS_FOLDER);
  return new ModelSet(await chooseRuntime(kind), MODELS_FOLDER);
}

export interface MeasuredPhoto {
  readonly labelled: LabelledPhoto;
  readonly measured: PhotoPeople;
  readonly matches: readonly Match<Person>[];
}

/** Measures labelled photos and says which measured person is which labelled one. */
export async function measureLabelled(models: ModelSet, photos: readonly LabelledPhoto[]): Promise<MeasuredPhoto[]> {
  const results: MeasuredPhoto[] = [];
  for (const labelled of photos) {
    const measured = await measurePhoto(labelled.path, { models, version: 'test' });
    const matches = matchPeople(labelled.people, measured.people, (person) => pixelPoints(person, labelled));
    results.push({ labelled, measured, matches });
  }
  return results;
}

export type PixelPoint = Point & { readonly confidence: number };

/** The points of a measured person in pixels of the photo. */
export function pixelPoints(person: Person, { size }: LabelledPhoto): Map<PointName, PixelPoint> {
  const points = new Map<PointName, PixelPoint>();
  for (const [name, point] of foundPlaces(person.points)) {
    points.set(name, { x: point.x * size.width, y: point.y * size.height, confidence: point.confidence });
  }
  return points;
}
