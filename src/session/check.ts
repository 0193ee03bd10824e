import type { Rectangle } from '../geometry/shapes.ts';
import type { Frame } from '../manifest/manifest.ts';
import type { Length } from '../people/lengths.ts';
import { isCoveredBy } from '../rules/finding.ts';
import { checkScene } from '../rules/report.ts';
import type { Scene } from '../rules/scene.ts';
import { askedFor, isAboutCrop } from './asked.ts';
import { breathe } from './breathe.ts';
import { FileFindings } from './file-findings.ts';
import { cropOf, degreesOf, sceneOfFrame } from './frame-scene.ts';
import { causeInFrame, isPressing, type LocatedFinding } from './located-finding.ts';
import { photoStates, type PhotoState } from './photo-states.ts';
import type { Session } from './session.ts';
import { fixesOfFrame } from './frame-fixes.ts';

/** One frame with everything that was found about it. */
export interface FrameCheck {
  readonly frame: Frame;
  /** Effective, in fractions. */
  readonly crop: Rectangle;
  /** Effective, in degrees. */
  readonly straighten: number;
  readonly length?: Length;
  readonly lengthFrom?: 'asked' | 'found';
  readonly findings: readonly LocatedFinding[];
  /** As the rules saw it, for frames that press; absent when nobody measured the photo. */
  readonly scene?: Scene;
}

/** One manifest that was checked. */
export interface SessionCheck {
  readonly session: Session;
  /** About the manifest, the people file and the photos as a whole. */
  readonly findings: readonly LocatedFinding[];
  readonly frames: readonly FrameCheck[];
}

export interface CheckOptions {
  /** Only findings of these rules, and what kept them from speaking. Absent: of all. */
  readonly rules?: readonly string[] | undefined;
  /** Whether findings carry fixes. Absent: not. */
  readonly fixes?: boolean;
  readonly signal?: AbortSignal;
}

/**
 * What is wrong in a session. Photos are only read; nothing is written but the user's cache.
 * @throws the signal's reason when it aborts
 */
export async function checkSession(session: Session, options: CheckOptions = {}): Promise<SessionCheck> {
  const states = await photoStates(session, options.signal);
  const files = new FileFindings(session);
  const isAsked = askedFor(options.rules);
  const frames: FrameCheck[] = [];
  for (const frame of session.manifest.frames) {
    await breathe(options.signal);
    const check = checkFrame(session, frame, states, files);
    const asked = { ...check, findings: check.findings.filter(isAsked) };
    frames.push(withoutIdleScene(options.fixes === true ? fixesOfFrame(session, asked) : asked));
  }
  return { session, findings: files.ofSession(states).filter(isAsked), frames };
}

/** A scene is large, and a session may have a thousand: only who needs a repair keeps it. */
function withoutIdleScene({ scene, ...check }: FrameCheck): FrameCheck {
  return scene && check.findings.some(isPressing) ? { ...check, scene } : check;
}

const UNREADABLE = ['crop', 'straighten', 'subjects', 'allow', 'length', 'aspect'];

function checkFrame(
  session: Session,
  frame: Frame,
  states: ReadonlyMap<string, PhotoState>,
  files: FileFindings,
): FrameCheck {
  const measured = session.people.photos.get(frame.photo.value);
  const state = states.get(frame.photo.value);
  const size = measured?.size ?? (state && 'size' in state ? state.size : undefined);
  // A crop that cannot be read is no crop to judge: its problem is told instead.
  const isReadable = !UNREADABLE.some((key) => frame.unread.has(key));
  const scene = size && isReadable && sceneOfFrame(session.manifest, frame, size, measured?.people ?? []);
  const found = [
    ...session.manifest.problems
      .filter((problem) => problem.frame === frame.index)
      .flatMap((problem) => files.ofProblem(problem)),
    ...files.ofFrame(frame, states),
    ...(scene ? cropFindings(session, frame, scene) : []),
  ].map((finding) => withAllowance(frame, finding));
  const all = measured && scene ? [...found, ...files.ofAllowances(frame, found)] : found;
  return {
    frame,
    crop: cropOf(frame, size),
    straighten: degreesOf(frame),
    ...(scene && scene.length && { length: scene.length, lengthFrom: scene.askedLength ? 'asked' : 'found' }),
    findings: frame.final?.value === true ? all.map(asHint) : all,
    ...(measured && scene && { scene }),
  };
}

function cropFindings(session: Session, frame: Frame, scene: Scene): LocatedFinding[] {
  return checkScene(scene, session.configuration.crops).map((finding) => ({
    ...finding,
    range: causeInFrame(frame, finding),
  }));
}

/** What is approved as it is; a file in trouble stays in trouble. */
function asHint(finding: LocatedFinding): LocatedFinding {
  return isAboutCrop(finding) ? { ...finding, severity: 'info' } : finding;
}

function withAllowance(frame: Frame, finding: LocatedFinding): LocatedFinding {
  const allowance = [...frame.allow].find(([key]) => isCoveredBy(key, finding));
  return allowance ? { ...finding, allowed: allowance[1].value } : finding;
}
