import type { Frame } from '../manifest/manifest.ts';
import { LineIndex } from '../manifest/position.ts';
import { countFindings, type Counts } from '../session/counts.ts';
import { LiveSession } from '../session/live-session.ts';
import type { LocatedFinding } from '../session/located-finding.ts';
import type { PhotoState } from '../session/photo-states.ts';
import type { SessionCheck } from '../session/session-check.ts';
import { openSession } from '../session/session.ts';

/** What the tree tells of one frame. */
export interface FrameSummary {
  readonly index: number;
  readonly name: string;
  /** From 0. */
  readonly line: number;
  readonly isApproved: boolean;
  readonly findings: Pick<Counts, 'errors' | 'warnings' | 'infos'>;
}

/** What the tree tells of one session; nothing of it keeps the session itself alive. */
export interface SessionSummary {
  readonly name: string | undefined;
  readonly counts: Counts;
  readonly frames: readonly FrameSummary[];
  /** What keeps the manifest from being read, wholly or in part. */
  readonly trouble?: string;
}

const NOTHING: Counts = { frames: 0, errors: 0, warnings: 0, infos: 0 };

export function summaryOf(check: SessionCheck): SessionSummary {
  const { session, frames, findings } = check;
  const { manifest } = session;
  const lines = new LineIndex(manifest.text);
  const broken = manifest.problems.find(({ severity, frame }) => severity === 'error' && frame === undefined);
  const unread = manifest.frameCount - manifest.frames.length;
  const trouble =
    broken?.message ?? (unread > 0 ? `${unread} of ${manifest.frameCount} frames cannot be read.` : undefined);
  return {
    name: manifest.session?.value,
    counts: countFindings([{ findings, frames }]),
    frames: frames.map(({ frame, findings: own }) => frameSummary(lines, frame, own)),
    ...(trouble !== undefined && { trouble }),
  };
}

function frameSummary(lines: LineIndex, frame: Frame, findings: readonly LocatedFinding[]): FrameSummary {
  const counts = { errors: 0, warnings: 0, infos: 0 };
  for (const { severity, allowed } of findings) {
    if (allowed === undefined) counts[`${severity}s`] += 1;
  }
  return {
    index: frame.index,
    name: frame.name,
    // Positions of the manifest are counted from 1.
    line: lines.positionAt(frame.photo.range.start).line - 1,
    isApproved: frame.final?.value === true,
    findings: counts,
  };
}

/** Nobody looks at photos for a list of sessions: they are taken to be there. */
const ASSUMED: PhotoState = { kind: 'present', path: '' };

/**
 * Reads a session that nobody has open and checks its text.
 * @throws the signal's reason when it aborts
 */
export async function readSummary(path: string, signal: AbortSignal): Promise<SessionSummary> {
  try {
    const session = await openSession(path);
    signal.throwIfAborted();
    const states = new Map(session.manifest.frames.map(({ photo }) => [photo.value, ASSUMED] as const));
    return summaryOf(await new LiveSession(session, states).check(signal));
  } catch (error) {
    signal.throwIfAborted();
    const trouble = error instanceof Error ? error.message : String(error);
    return { name: undefined, counts: NOTHING, frames: [], trouble };
  }
}
