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
  const own = frames.slice(bound(frames.length, number - 1, of), bound(frames.length, number, of));
  const included = new Set(own.map(({ index }) => index));
  return { includes: ({ index }) => included.has(index), tells: () => number === 1 };
}

/** The photos that a shard measures: neighbours in the order of the manifest, each photo in one shard alone. */
export function photosOfShard({ manifest }: Session, { number, of }: Shard): ReadonlySet<string> {
  const photos = [...new Set(manifest.frames.map(({ photo }) => photo.value))];
  return new Set(photos.slice(bound(photos.length, number - 1, of), bound(photos.length, number, of)));
}

function bound(count: number, number: number, of: number): number {
  return Math.floor((count * number) / of);
}

/** What lies in both parts. */
export function bothParts(one: CheckPart, other: CheckPart): CheckPart {
  return {
    includes: (frame) => one.includes(frame) && other.includes(frame),
    tells: (finding) => one.tells(finding) && other.tells(finding),
  };
}
