import { askedFor } from './asked.ts';
import type { CheckPart } from './check-part.ts';
import { fixesOfFrame } from './frame-fixes.ts';
import type { FrameCheck } from './frame-check.ts';
import { LiveSession } from './live-session.ts';
import { photoStates } from './photo-states.ts';
import { Pauses } from './breathe.ts';
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
  const included = part ? session.manifest.frames.filter(part.includes) : session.manifest.frames;
  const states = await photoStates(session, signal, new Set(included.map(({ photo }) => photo.value)));
  const live = new LiveSession(session, states);
  const isIncluded = new Set(included.map(({ index }) => index));
  const isAsked = askedFor(rules);
  const pauses = new Pauses(signal);
  const frames: FrameCheck[] = [];
  for (const [place, { index }] of session.manifest.frames.entries()) {
    if (!isIncluded.has(index)) continue;
    if (pauses.isDue) await pauses.take();
    const check = live.frameCheck(place);
    const asked = rules === undefined ? check : { ...check, findings: check.findings.filter(isAsked) };
    frames.push(options.fixes === true ? fixesOfFrame(session, asked) : asked);
  }
  const told = live.sessionFindings().filter((finding) => isAsked(finding) && (part?.tells(finding) ?? true));
  return { session, findings: told, frames };
}
