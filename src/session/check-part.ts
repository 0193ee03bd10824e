import type { Frame } from '../manifest/manifest.ts';
import type { LocatedFinding } from './located-finding.ts';
import type { Session } from './session.ts';

/** A part of a session's check. */
export interface CheckPart {
  /** Whether a frame of the session is checked. */
  readonly includes: (frame: Frame) => boolean;
  /** Whether a finding about the session as a whole is told. */
  readonly tells: (finding: LocatedFinding) => boolean;
}

/** One of several machines that share the work: shard `number` of `of`, from 1. */
export interface Shard {
  readonly number: number;
  readonly of: number;
}

/**
 * A shard's part: neighbouring frames, as many as any other shard has, or one more. Findings about the session as a whole
 * are told by the first shard alone, so that the frames of all shards one behind the other, with the first one's session
 * findings, are the whole check.
 */
export function shardPart({ manifest }: Session, { number, of }: Shard): CheckPart {
  const { frames } = manifest;
  const from = Math.floor((frames.length * (number - 1)) / of);
  const to = Math.floor((frames.length * number) / of);
  const included = new Set(frames.slice(from, to).map(({ index }) => index));
  return { includes: ({ index }) => included.has(index), tells: () => number === 1 };
}

/** What lies in both parts. */
export function bothParts(one: CheckPart, other: CheckPart): CheckPart {
  return {
    includes: (frame) => one.includes(frame) && other.includes(frame),
    tells: (finding) => one.tells(finding) && other.tells(finding),
  };
}
