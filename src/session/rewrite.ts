import { INPUT_LIMITS } from '../input-limits.ts';
import { editFrames, type FrameChange } from '../manifest/edit.ts';
import { parseManifest } from '../manifest/parse.ts';
import { applyEdits, type TextEdit } from '../manifest/text-edit.ts';
import { RULE_CATALOGUE } from './file-rules.ts';
import type { FixedFrame } from './fix-report.ts';
import type { Session } from './session.ts';
import { SessionError } from './session-error.ts';
import { readTextFile, writeTextFile } from './text-file.ts';

/** A manifest's new text, and how it came about. */
export interface Rewritten {
  readonly text: string;
  readonly edits: readonly TextEdit[];
}

const MEMBERS = ['x', 'y', 'w', 'h'] as const;

/** Where a place of the text before the edits stands after them. */
export function movedOffset(edits: readonly TextEdit[], offset: number): number {
  return edits
    .filter(({ end }) => end <= offset)
    .reduce((moved, { start, end, text }) => moved + text.length - (end - start), offset);
}

/**
 * The manifest's new text, read back: a frame that would not have exactly its new crop is a fault of ours.
 * @throws SessionError when one has not
 */
export function rewrite(session: Session, fixed: readonly FixedFrame[]): Rewritten {
  if (fixed.length === 0) return { text: session.manifest.text, edits: [] };
  const changes = new Map(
    fixed.map(({ frame, after, straighten }): [number, FrameChange] => [
      frame.index,
      { crop: after, ...(straighten && { straighten: straighten.after }) },
    ]),
  );
  const edits = editFrames(session.manifest, changes);
  const text = applyEdits(session.manifest.text, edits);
  const again = parseManifest(text, RULE_CATALOGUE);
  for (const { frame, after, straighten } of fixed) {
    const reread = again.frames.find(({ index }) => index === frame.index);
    const crop = reread?.crop?.value;
    const isTurned = straighten === undefined || Math.abs((reread?.straighten?.value ?? 0) - straighten.after) < 1e-9;
    const isThere = crop && isTurned && MEMBERS.every((member) => Math.abs(crop[member] - after[member]) < 1e-9);
    if (!isThere)
      throw new SessionError(
        `The new crop of ${frame.name} cannot be written into ${session.path}; nothing was changed.`,
      );
  }
  return { text, edits };
}

/**
 * Writes the new text, unless somebody else has changed the file since it was read.
 * @throws SessionError when it has, or cannot be written
 */
export async function writeManifest(session: Session, text: string): Promise<void> {
  if ((await readTextFile(session.path, INPUT_LIMITS.manifestBytes)) !== session.manifest.text) {
    throw new SessionError(
      `${session.path} was changed by somebody else meanwhile; nothing was written. Run the same again.`,
    );
  }
  await writeTextFile(session.path, text);
}
