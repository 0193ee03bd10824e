import type { Size } from '../../geometry/shapes.ts';
import type { Frame } from '../../manifest/manifest.ts';
import type { PhotoPeople } from '../../people/person.ts';
import { Pauses } from '../breathe.ts';
import type { PhotoStates } from '../check-context.ts';
import type { FrameCheck } from '../frame-check.ts';
import { LiveSession } from '../live-session.ts';
import { isPressing } from '../located-finding.ts';
import type { PhotoState } from '../photo-states.ts';
import type { Session } from '../session.ts';
import { entryWords } from './entry-words.ts';
import { findingChanges, type FindingChanges } from './finding-changes.ts';
import { movementOf, type Movement } from './movement.ts';
import { outputChanges, outputWords, type OutputChange } from './output-changes.ts';
import type { FramePair } from './pair-frames.ts';
import { pastOf, type Past } from './past-session.ts';
import { changedSettings, isTouched, pairsSince, touchOf, type Touch } from './touched.ts';

/** A frame at one of the two moments. */
export interface ReviewSide {
  readonly check: FrameCheck;
  /** Of the oriented photo, where it is known. */
  readonly size?: Size;
  readonly measured?: PhotoPeople;
}

/** A frame that is another one than it was. */
export interface ReviewedFrame {
  readonly kind: 'changed' | 'added' | 'removed';
  /** Its name today, or the one it had. */
  readonly name: string;
  readonly then?: ReviewSide;
  readonly now?: ReviewSide;
  /** The photo's bytes are others. */
  readonly isPhotoChanged: boolean;
  /** What moved, when both crops are there and differ. */
  readonly movement?: Movement;
  /** Crops of single outputs that are others. */
  readonly outputs: readonly OutputChange[];
  /** What else is said otherwise, for reading. */
  readonly words: readonly string[];
  readonly findings: FindingChanges;
  /** Where the photo is today. */
  readonly photoPath?: string;
}

export interface Review {
  /** As the user wrote it. */
  readonly revision: string;
  readonly past: Past;
  readonly session: Session;
  readonly frames: readonly ReviewedFrame[];
  /** About the session as a whole. */
  readonly findings: FindingChanges;
  /** Keys over all frames that say something else. */
  readonly settings: readonly string[];
  /** Frames of today that are as they were. */
  readonly unchanged: number;
  /** None of the photos is here: pictures are drawn from the people file. */
  readonly isWithoutPhotos: boolean;
}

export interface ReviewOptions {
  /** Looks at today's photos. */
  readonly lookAtPhotos: (session: Session, signal?: AbortSignal) => Promise<PhotoStates>;
  /** The revision that the session was opened at. Absent: it is today's. */
  readonly until?: string | undefined;
  readonly signal?: AbortSignal;
}

/**
 * Every frame that was changed, added or removed since a git revision. Files are only read.
 * @throws SessionError when there is no repository or no such revision; the signal's reason when it aborts
 */
export async function reviewSince(
  session: Session,
  revision: string,
  { lookAtPhotos, until, signal }: ReviewOptions,
): Promise<Review> {
  const past = await pastOf(session, revision, until);
  const states = await lookAtPhotos(session, signal);
  const then = past.then?.session ?? emptied(session);
  const comparison = new Comparison(then, session, states);
  const settings = past.then ? changedSettings(then, session) : [];
  const pauses = new Pauses(signal);
  const frames: ReviewedFrame[] = [];
  for (const pair of pairsSince(then, session)) {
    if (pauses.isDue) await pauses.take();
    const reviewed = comparison.review(pair, settings.length > 0);
    if (reviewed) frames.push(reviewed);
  }
  return {
    revision,
    past,
    session,
    frames,
    findings: comparison.ofSession(),
    settings,
    unchanged: session.manifest.frames.length - frames.filter(({ kind }) => kind !== 'removed').length,
    isWithoutPhotos: [...states.values()].every(({ kind }) => kind === 'absent'),
  };
}

/** Whether a change brought errors or warnings. */
export function bringsFindings({ frames, findings }: Review): boolean {
  return [...frames.map((frame) => frame.findings), findings].some(
    ({ fresh, judgedOtherwise }) =>
      fresh.some(isPressing) || judgedOtherwise.some(({ then, now }) => isPressing(now) && !isPressing(then)),
  );
}

function emptied(session: Session): Session {
  return { ...session, manifest: { ...session.manifest, frames: [], problems: [] } };
}

class Comparison {
  readonly #then: Session;
  readonly #now: Session;
  readonly #states: PhotoStates;
  readonly #liveThen: LiveSession;
  readonly #liveNow: LiveSession;
  readonly #placesThen: ReadonlyMap<number, number>;
  readonly #placesNow: ReadonlyMap<number, number>;

  constructor(then: Session, now: Session, states: PhotoStates) {
    this.#then = then;
    this.#now = now;
    this.#states = states;
    this.#liveThen = new LiveSession(then, statesThen(then, states));
    this.#liveNow = new LiveSession(now, states);
    this.#placesThen = placesOf(then);
    this.#placesNow = placesOf(now);
  }

  /** Undefined when the frame is as it was. */
  review({ then, now }: FramePair, areSettingsOthers: boolean): ReviewedFrame | undefined {
    if (then && now) return this.#changed(then, now, areSettingsOthers);
    if (now) {
      const side = this.#sideNow(now);
      const findings = findingChanges([], side.check.findings);
      return {
        kind: 'added',
        name: now.name,
        now: side,
        isPhotoChanged: false,
        outputs: [],
        words: [],
        findings,
        ...this.#path(now),
      };
    }
    const side = this.#sideThen(then!);
    const findings = findingChanges(side.check.findings, []);
    return { kind: 'removed', name: then!.name, then: side, isPhotoChanged: false, outputs: [], words: [], findings, ...this.#path(then!) }; // prettier-ignore
  }

  ofSession(): FindingChanges {
    // How photos are found is a matter of this call, not of the change.
    const ofManifest = (live: LiveSession) => live.sessionFindings().filter(({ rule }) => rule === 'manifest');
    return findingChanges(ofManifest(this.#liveThen), ofManifest(this.#liveNow));
  }

  #changed(then: Frame, now: Frame, areSettingsOthers: boolean): ReviewedFrame | undefined {
    const touch = touchOf({ then, now }, this.#then, this.#now, this.#states);
    if (!isTouched(touch) && !areSettingsOthers) return undefined;
    const before = this.#sideThen(then);
    const after = this.#sideNow(now);
    const findings = findingChanges(before.check.findings, after.check.findings);
    const isSilent = !isWorthShowing(touch) && findings.gone.length + findings.fresh.length + findings.judgedOtherwise.length === 0; // prettier-ignore
    if (isSilent) return undefined;
    const size = before.size ?? after.size;
    const movement = movementOf(turned(before), turned(after), size);
    const outputs = outputChanges(then, now, size);
    return {
      kind: 'changed',
      name: now.name,
      then: before,
      now: after,
      isPhotoChanged: touch.photo,
      ...(movement.words.length > 0 && { movement }),
      outputs,
      words: [
        ...(touch.renamed ? [`the photo was called ${then.photo.value}`] : []),
        ...outputs.flatMap(outputWords),
        ...entryWords(then, now, touch),
      ],
      findings,
      ...this.#path(now),
    };
  }

  #sideThen(frame: Frame): ReviewSide {
    const check = this.#liveThen.frameCheck(this.#placesThen.get(frame.index)!);
    return sideOf(check, this.#then, this.#states.get(frame.photo.value));
  }

  #sideNow(frame: Frame): ReviewSide {
    const check = this.#liveNow.frameCheck(this.#placesNow.get(frame.index)!);
    return sideOf(check, this.#now, this.#states.get(frame.photo.value));
  }

  #path({ photo }: Frame): { photoPath?: string } {
    const state = this.#states.get(photo.value);
    return state && 'path' in state ? { photoPath: state.path } : {};
  }
}

/** Measuring again, with the same findings, is nothing that anybody has to look at. */
function isWorthShowing({ keys, renamed, photo }: Touch): boolean {
  return keys.length > 0 || renamed || photo;
}

function placesOf({ manifest }: Session): ReadonlyMap<number, number> {
  return new Map(manifest.frames.map(({ index }, place) => [index, place]));
}

function turned({ check }: ReviewSide): { crop: FrameCheck['crop']; degrees: number } {
  return { crop: check.crop, degrees: check.straighten };
}

function sideOf(check: FrameCheck, { people }: Session, state: PhotoState | undefined): ReviewSide {
  const measured = people.photos.get(check.frame.photo.value);
  const size = measured?.size ?? (state && 'size' in state ? state.size : undefined);
  return { check, ...(size && { size }), ...(measured && { measured }) };
}

/** A photo that was measured counted as being there: nobody knows today what the disk said then. */
function statesThen({ manifest, people }: Session, now: PhotoStates): PhotoStates {
  const states = new Map<string, PhotoState>();
  for (const { photo } of manifest.frames) {
    const known = now.get(photo.value);
    if (people.photos.has(photo.value)) states.set(photo.value, { kind: 'present', path: '' });
    else if (known) states.set(photo.value, known);
  }
  return states;
}
