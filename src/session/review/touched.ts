import { isDeepStrictEqual } from 'node:util';
import type { PhotoStates } from '../check-context.ts';
import type { CheckPart } from '../check-part.ts';
import { defaultsOf } from '../frame-scene.ts';
import { LiveSession } from '../live-session.ts';
import type { LocatedFinding } from '../located-finding.ts';
import { photoStates } from '../photo-states.ts';
import type { Session } from '../session.ts';
import { changedKeys, type FrameKey } from './frame-values.ts';
import { pairFrames, type FramePair } from './pair-frames.ts';
import { pastOf, type Past } from './past-session.ts';

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
  ];
}

/**
 * The part of a session that a change touched since a revision: frames that were added, or whose entry, photo or people
 * are others, or all of them when settings over all frames are others; and what is new about the manifest as a whole.
 * @throws SessionError when there is no repository or no such revision
 */
export async function partSince(session: Session, revision: string, signal?: AbortSignal): Promise<CheckPart> {
  const past: Past = await pastOf(session, revision);
  const then = past.then?.session;
  if (!then || changedSettings(then, session).length > 0) return { includes: () => true, tells: () => true };
  const states = await photoStates(session, signal);
  const touched = new Set(
    pairsSince(then, session).flatMap(({ then: before, now }) => {
      if (!now) return [];
      return !before || isTouched(touchOf({ then: before, now }, then, session, states)) ? [now.index] : [];
    }),
  );
  const known = new Set(new LiveSession(then, new Map()).sessionFindings().map(wordsOf));
  return {
    includes: ({ index }) => touched.has(index),
    // How photos are found is a matter of this call, not of the change.
    tells: (finding) => finding.rule !== 'manifest' || !known.has(wordsOf(finding)),
  };
}

function wordsOf({ rule, severity, message }: LocatedFinding): string {
  return `${rule} ${severity} ${message}`;
}
