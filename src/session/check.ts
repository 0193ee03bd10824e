import { askedFor } from './asked.ts';
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
  readonly signal?: AbortSignal;
}

/**
 * What is wrong in a session. Photos are only read; nothing is written but the user's cache.
 * @throws the signal's reason when it aborts
 */
export async function checkSession(session: Session, options: CheckOptions = {}): Promise<SessionCheck> {
  const { rules, signal } = options;
  const whole = await new LiveSession(session, await photoStates(session, signal)).check(signal);
  const isAsked = askedFor(rules);
  const pauses = new Pauses(signal);
  const frames: FrameCheck[] = [];
  for (const check of whole.frames) {
    const asked = rules === undefined ? check : { ...check, findings: check.findings.filter(isAsked) };
    if (pauses.isDue) await pauses.take();
    frames.push(options.fixes === true ? fixesOfFrame(session, asked) : asked);
  }
  return { session, findings: whole.findings.filter(isAsked), frames };
}
