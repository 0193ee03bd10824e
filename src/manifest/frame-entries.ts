import type { Node } from 'yaml';
import type { Frame, Manifest, Problem } from './manifest.ts';
import { saysTheSame } from './relocate.ts';

/** One readable frame, as it was when it was read. */
export interface FrameEntry {
  /** Its ranges, and those of the problems, are meant for a frame that begins at `start`. */
  readonly frame: Frame;
  readonly problems: readonly Problem[];
  readonly start: number;
  /** The same object for as long as the entry says the same, wherever it stands. */
  readonly content: object;
  /** As it is written, where it was read alone; else the manifest has it. */
  readonly node?: Node;
}

/**
 * The readable frames of a manifest, and the problems outside them. Entries that say the same as the one of their name
 * in `before` keep its content.
 */
export function entriesOf(
  manifest: Manifest,
  before: readonly FrameEntry[],
): { readonly entries: FrameEntry[]; readonly outside: readonly Problem[] } {
  const problems = problemsByFrame(manifest.problems);
  const known = new Map(before.map((entry) => [entry.frame.name, entry]));
  const entries = manifest.frames.map((frame): FrameEntry => {
    const entry = { frame, problems: problems.get(frame.index) ?? [], start: frame.range.start };
    const old = known.get(frame.name);
    return { ...entry, content: old && isSame(old, entry) ? old.content : {} };
  });
  return { entries, outside: problemsOutside(manifest) };
}

/** Problems of no entry, or of an entry that is no readable frame. */
export function problemsOutside({ frames, problems }: Pick<Manifest, 'frames' | 'problems'>): readonly Problem[] {
  const readable = new Set(frames.map(({ index }) => index));
  return problems.filter(({ frame }) => frame === undefined || !readable.has(frame));
}

/** The problems of each entry of `frames`, by its place; undefined: of none. */
export function problemsByFrame(problems: readonly Problem[]): Map<number | undefined, Problem[]> {
  const byFrame = new Map<number | undefined, Problem[]>();
  for (const problem of problems) {
    const known = byFrame.get(problem.frame);
    if (known) known.push(problem);
    else byFrame.set(problem.frame, [problem]);
  }
  return byFrame;
}

function isSame(old: FrameEntry, entry: Omit<FrameEntry, 'content'>): boolean {
  const distance = entry.start - old.start;
  return saysTheSame(old.frame, entry.frame, distance) && saysTheSame(old.problems, entry.problems, distance);
}
