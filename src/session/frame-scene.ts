import { defaultCrop, effectiveEdges } from '../geometry/crop.ts';
import { orientationOf, shapeOf } from '../geometry/ratio.ts';
import { WHOLE_PHOTO, type Edges, type Rectangle, type Size } from '../geometry/shapes.ts';
import type { Aspect, Composition, Frame, Manifest } from '../manifest/manifest.ts';
import { DEFAULT_ASPECT, DEFAULT_COMPOSITION } from '../manifest/manifest.ts';
import type { Person, PhotoPeople } from '../people/person.ts';
import type { Scene } from '../rules/scene.ts';
import { sceneOf } from '../rules/scene.ts';
import type { Session } from './session.ts';

export function degreesOf(frame: Frame): number {
  return frame.straighten?.value ?? 0;
}

/** The crop that the frame has, in fractions: as written, else what DESIGN gives a frame without one. */
export function cropOf(frame: Frame, photo: Size | undefined): Rectangle {
  if (frame.crop) {
    const { x, y, w, h } = frame.crop.value;
    return { x, y, w, h };
  }
  return photo ? defaultCrop(photo, degreesOf(frame)) : WHOLE_PHOTO;
}

/** What a frame has that asks for nothing of its own. */
export interface SessionDefaults {
  readonly aspect: Aspect;
  readonly composition: Composition;
}

export function defaultsOf({ aspect, compose }: Pick<Manifest, 'aspect' | 'compose'>): SessionDefaults {
  return { aspect: aspect?.value ?? DEFAULT_ASPECT, composition: compose?.value ?? DEFAULT_COMPOSITION };
}

const NEEDED = ['crop', 'straighten', 'subjects', 'allow', 'length', 'aspect'];

/** A crop that cannot be read is no crop to judge: its problem is told instead. */
export function canBeJudged(frame: Frame): boolean {
  return !NEEDED.some((key) => frame.unread.has(key));
}

/**
 * The frame as the rules see it, when its people were measured and it can be read. Scenes are made when they are needed
 * and not kept: those of ten thousand frames take gigabytes.
 */
export function measuredScene(
  { manifest, people }: Pick<Session, 'manifest' | 'people'>,
  frame: Frame,
): Scene | undefined {
  const measured = people.photos.get(frame.photo.value);
  if (!measured || !canBeJudged(frame)) return undefined;
  return sceneOfFrame(defaultsOf(manifest), frame, measured.size, measured.people, measured);
}

/** How a frame is cropped and turned: in fractions, and in degrees. */
export interface Cropping {
  readonly crop: Rectangle;
  readonly straighten: number;
}

/** The frame as the rules see it, with the crop that it has now, or with another. */
export function sceneOfFrame(
  { aspect, composition }: SessionDefaults,
  frame: Frame,
  photo: Size,
  people: readonly Person[],
  { tilt, horizon, symmetry }: Pick<PhotoPeople, 'tilt' | 'horizon' | 'symmetry'> = {},
  cropping: Cropping = { crop: cropOf(frame, photo), straighten: degreesOf(frame) },
): Scene {
  const degrees = cropping.straighten;
  const crop = effectiveEdges(cropping.crop, photo, degrees);
  return sceneOf({
    photo,
    degrees,
    crop,
    shape: shapeAskedFor(frame.aspect?.value ?? aspect, photo, crop),
    composition: frame.compose?.value ?? composition,
    askedLength: frame.length?.value,
    people,
    subjects: frame.subjects?.value,
    tilt,
    horizon,
    symmetry,
  });
}

/** The same for an output: lines are the photo's own, and the main crop is told of them. */
export function withoutLines(scene: Scene): Scene {
  return { ...scene, tilt: undefined, horizon: undefined };
}

/** Width over height: the photo's own shape, or a paper's, held as the crop is held. */
function shapeAskedFor(aspect: Aspect, photo: Size, crop: Edges): number | undefined {
  if (aspect.kind === 'free') return undefined;
  if (aspect.kind === 'original') return photo.width / photo.height;
  const photoIs = photo.width > photo.height ? 'lying' : 'upright';
  return shapeOf(aspect, orientationOf(crop, photoIs));
}
