import { isDeepStrictEqual } from 'node:util';
import type { Output } from '../../manifest/manifest.ts';
import type { PhotoStates } from '../check-context.ts';
import { defaultsOf } from '../frame-scene.ts';
import { withoutPlaces } from '../outputs/without-places.ts';
import type { Session } from '../session.ts';
import { changedKeys, type FrameKey } from './frame-values.ts';
import { pairFrames, type FramePair } from './pair-frames.ts';

/** What is another thing about a frame than it was then. */
export interface Touch {
  /** Keys of its entry. */
  readonly keys: readonly FrameKey[];
  /** Its photo's name. */
  readonly renamed: boolean;
  /** The photo's bytes. */
  readonly photo: boolean;
  /** What was measured in it. */
  readonly measured: boolean;
}

export function isTouched({ keys, renamed, photo, measured }: Touch): boolean {
  return keys.length > 0 || renamed || photo || measured;
}

/** Every frame of then and now, paired. */
export function pairsSince(then: Session, now: Session): FramePair[] {
  const side = ({ manifest, people }: Session) => ({
    frames: manifest.frames,
    digestOf: (photo: string) => people.photos.get(photo)?.digest,
  });
  return pairFrames(side(then), side(now));
}

/** @param states of today's photos */
export function touchOf(
  { then, now }: Required<FramePair>,
  past: Session,
  present: Session,
  states: PhotoStates,
): Touch {
  const nameThen = then.photo.value;
  const name = now.photo.value;
  const before = past.people.photos.get(nameThen)?.digest;
  const after = present.people.photos.get(name)?.digest;
  return {
    keys: changedKeys(then, now),
    renamed: nameThen !== name,
    photo: states.get(name)?.kind === 'changed' || (before !== undefined && after !== undefined && before !== after),
    measured: measuredText(past, nameThen) !== measuredText(present, name),
  };
}

/** What was measured, whatever the photo is called. */
function measuredText({ people }: Session, photo: string): string | undefined {
  const line = people.lines.get(photo);
  return line?.replace(`"photo":${JSON.stringify(photo)}`, '');
}

/** What stands over all frames and changes how they are judged: names of the keys that say something else. */
export function changedSettings(then: Session, now: Session): string[] {
  const before = defaultsOf(then.manifest);
  const after = defaultsOf(now.manifest);
  return [
    ...(isDeepStrictEqual(before.aspect, after.aspect) ? [] : ['aspect']),
    ...(before.composition === after.composition ? [] : ['compose']),
    ...(isDeepStrictEqual(then.configuration, now.configuration) ? [] : ['rules']),
    ...(isDeepStrictEqual(outputsOf(then), outputsOf(now)) ? [] : ['deliver']),
  ];
}

function outputsOf({ manifest }: Session): Output[] {
  return [...manifest.deliver.values()].map(withoutPlaces);
}
