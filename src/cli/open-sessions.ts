import { findManifest, identityOfFile } from '../session/find-manifest.ts';
import { SessionError } from '../session/session-error.ts';
import { openSession, type OpenOptions, type Session } from '../session/session.ts';
import { printableLines } from '../report/printable.ts';
import { BadCall } from './exit.ts';
import { requireFrames } from './require-frames.ts';
import type { Output } from './streams.ts';

export interface OpenedSessions {
  /** Each manifest once, however often and in whatever spelling it was named. */
  readonly sessions: readonly Session[];
  /** Something that was named could not be opened; it has been said. */
  readonly isIncomplete: boolean;
}

/**
 * Opens what a command was given. What cannot be opened is said on stderr and stops none of the others.
 * @throws SessionError or BadCall when only one was named and cannot be opened
 */
export async function openSessions(
  paths: readonly string[],
  options: OpenOptions,
  stderr: Output,
): Promise<OpenedSessions> {
  const sessions = new Map<string, Session>();
  let isIncomplete = false;
  for (const path of paths) {
    try {
      const manifest = await findManifest(path);
      const identity = await identityOfFile(manifest);
      if (!sessions.has(identity)) sessions.set(identity, await openReadable(manifest, options));
    } catch (error) {
      if (paths.length === 1 || !isFailure(error)) throw error;
      sayFailure(error, stderr);
      isIncomplete = true;
    }
  }
  return { sessions: [...sessions.values()], isIncomplete };
}

/** A session of which at least one frame can be read. */
export async function openReadable(path: string, options: OpenOptions): Promise<Session> {
  const session = await openSession(path, options);
  requireFrames(session);
  return session;
}

/** What the user can mend, not a fault of ours. */
export function isFailure(error: unknown): error is SessionError | BadCall {
  return error instanceof SessionError || error instanceof BadCall;
}

export function sayFailure({ message }: Error, stderr: Output): void {
  stderr.write(`selvedge: ${printableLines(message)}\n`);
}
