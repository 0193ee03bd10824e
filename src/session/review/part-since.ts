import type { CheckPart } from '../check-part.ts';
import { LiveSession } from '../live-session.ts';
import type { LocatedFinding } from '../located-finding.ts';
import { photoStates } from '../photo-states.ts';
import type { Session } from '../session.ts';
import { pastOf, type Past } from './past-session.ts';
import { changedSettings, isTouched, pairsSince, touchOf } from './touched.ts';

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
