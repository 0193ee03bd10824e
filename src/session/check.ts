import { askedFor } from './asked.ts';
import type { CheckPart } from './check-part.ts';
import { fixesOfFrame } from './frame-fixes.ts';
import { problemsByFrame, problemsOutside } from '../manifest/frame-entries.ts';
import { Pauses } from './breathe.ts';
import { contextOf } from './check-context.ts';
import { FileFindings } from './file-findings.ts';
import { checkFrame, type FrameCheck } from './frame-check.ts';
import { photoStates } from './photo-states.ts';
import type { Session } from './session.ts';
import type { SessionCheck } from './session-check.ts';

export type { FrameCheck } from './frame-check.ts';
export type { SessionCheck } from './session-check.ts';

export interface CheckOptions {
  /** Only findings of these rules, and what kept them from speaking. Absent: of all. */
  readonly rules?: readonly string[] | undefined;
  /** Whether findings carry fixes. Absent: not. */
  readonly fixes?: boolean;
  /** Absent: the whole session. */
  readonly part?: CheckPart | undefined;
  readonly signal?: AbortSignal;
}

/**
 * What is wrong in a session. Photos are only read; nothing is written but the user's cache.
 * @throws the signal's reason when it aborts
 */
export async function checkSession(session: Session, options: CheckOptions = {}): Promise<SessionCheck> {
  const { rules, part, signal } = options;
  const { manifest, people } = session;
  const included = part ? manifest.frames.filter(part.includes) : manifest.frames;
  const states = await photoStates(session, signal, new Set(included.map(({ photo }) => photo.value)));
  const context = contextOf(session, states);
  const problems = problemsByFrame(manifest.problems);
  const isAsked = askedFor(rules);
  const pauses = new Pauses(signal);
  const frames: FrameCheck[] = [];
  for (const frame of included) {
    if (pauses.isDue) await pauses.take();
    const photo = frame.photo.value;
    const measured = people.photos.get(photo);
    const state = states.get(photo);
    const check = checkFrame(context, { frame, problems: problems.get(frame.index) ?? [], measured, state });
    const asked = rules === undefined ? check : { ...check, findings: check.findings.filter(isAsked) };
    frames.push(options.fixes === true ? fixesOfFrame(session, asked) : asked);
  }
  const { text, photos, deliver } = manifest;
  const surroundings = { text, photos, outputs: [...deliver.values()], problems: problemsOutside(manifest) };
  const found = new FileFindings(context).ofSession(surroundings, session);
  const told = found.filter((finding) => isAsked(finding) && (part?.tells(finding) ?? true));
  return { session, findings: told, frames };
}
