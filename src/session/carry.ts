import type { Rectangle } from '../geometry/shapes.ts';
import { editFrames, type FrameChange } from '../manifest/edit.ts';
import type { Frame } from '../manifest/manifest.ts';
import { isDeepStrictEqual } from 'node:util';
import type { TextEdit } from '../manifest/text-edit.ts';
import type { Scene } from '../rules/scene.ts';
import { carryCrop } from '../search/index.ts';
import { breathe } from './breathe.ts';
import { cropOf, defaultsOf, measuredScene } from './frame-scene.ts';
import type { Session } from './session.ts';
import { SessionError } from './session-error.ts';
import { problemOfWhole } from './trust.ts';

/** A frame that took the crop; `isSame` when it had it already. */
export interface CarriedFrame {
  readonly frame: Frame;
  readonly crop: Rectangle;
  readonly isSame: boolean;
}

/** A frame that was left as it is, and why. */
export interface LeftFrame {
  readonly frame: Frame;
  readonly reason: string;
}

export interface CarryReport {
  readonly taken: readonly CarriedFrame[];
  readonly left: readonly LeftFrame[];
  readonly edits: readonly TextEdit[];
}

/** In a burst a person is as tall in the picture as before, or by so much shorter or taller (common practice, no source). */
const SIMILAR = 1.2;

/** The frames that a crop can be carried to: those below, of other photos, each with its first, or second … crop as this one. */
export function framesAfter({ manifest }: Session, frame: Frame): Frame[] {
  return manifest.frames.filter(({ index, occurrence }) => index > frame.index && occurrence === frame.occurrence);
}

/** How many of the frames below look like the same burst: as many people, about as tall. */
export function burstLength(session: Session, frame: Frame): number {
  const scene = measuredScene(session, frame);
  if (!scene?.tallest) return 0;
  const after = framesAfter(session, frame);
  const end = after.findIndex((other) => !isAlike(scene, measuredScene(session, other)));
  return end === -1 ? after.length : end;
}

function isAlike(scene: Scene, other: Scene | undefined): boolean {
  if (!other?.tallest || !scene.tallest || other.figures.length !== scene.figures.length) return false;
  const share = ({ tallest, photo }: Scene): number => tallest!.height / photo.height;
  const ratio = share(other) / share(scene);
  return ratio < SIMILAR && ratio > 1 / SIMILAR;
}

/**
 * Carries a frame's crop, shape and length to the next `count` frames by the body: the same gap over the head, the same
 * place on the body, the same room beside it. Each keeps its own straightening. Approved frames are left alone, as are
 * those where nothing clean comes of it.
 * @throws SessionError when the frame has nothing to carry; the signal's reason when it aborts
 */
export async function carryToNext(
  session: Session,
  frame: Frame,
  count: number,
  signal?: AbortSignal,
): Promise<CarryReport> {
  const from = measuredScene(session, frame);
  const problem = problemOfWhole(session);
  if (problem) throw new SessionError(`Nothing was carried: ${problem.message}`);
  if (!from?.tallest)
    throw new SessionError(`Nobody was measured in ${frame.name}, so there is no body to carry its crop by.`);
  const taken: CarriedFrame[] = [];
  const left: LeftFrame[] = [];
  const changes = new Map<number, FrameChange>();
  for (const to of framesAfter(session, frame).slice(0, count)) {
    await breathe(signal);
    const carried = carryOne(session, { frame, scene: from }, to);
    if ('reason' in carried) left.push({ frame: to, reason: carried.reason });
    else {
      const isSame = isDeepStrictEqual(cropOf(to, from.photo), carried.change.crop);
      taken.push({ frame: to, crop: carried.change.crop, isSame });
      changes.set(to.index, carried.change);
    }
  }
  return { taken, left, edits: editFrames(session.manifest, changes) };
}

type Outcome = { readonly change: FrameChange & { readonly crop: Rectangle } } | { readonly reason: string };

function carryOne(session: Session, source: { readonly frame: Frame; readonly scene: Scene }, to: Frame): Outcome {
  if (to.final?.value === true) return { reason: 'it is approved' };
  const scene = measuredScene(session, to);
  if (!scene) {
    const isMeasured = session.people.photos.has(to.photo.value);
    return { reason: isMeasured ? 'its entry has values that cannot be read' : 'nobody was measured in it' };
  }
  const aspect = (frame: Frame) => frame.aspect?.value ?? defaultsOf(session.manifest).aspect;
  const asked = aspect(source.frame);
  const target: Scene = {
    ...scene,
    shape: shapeFor(source.scene, scene, asked.kind),
    askedLength: source.frame.length?.value,
  };
  const carried = carryCrop(source.scene, target, session.configuration.crops, { allow: [...to.allow.keys()] });
  if ('reason' in carried) return carried;
  const isOtherShape = !isDeepStrictEqual(asked, aspect(to));
  const { length } = source.frame;
  const change = {
    crop: carried.crop,
    ...(isOtherShape && { aspect: asked }),
    ...(length && { length: length.value }),
  };
  return { change };
}

/** A paper's shape is held as the crop that is carried holds it; a photo's own shape is each photo's own. */
function shapeFor(from: Scene, { photo }: Scene, kind: 'original' | 'free' | 'ratio'): number | undefined {
  return kind === 'original' ? photo.width / photo.height : from.shape;
}
