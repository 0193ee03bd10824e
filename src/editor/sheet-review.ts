import type { Size } from '../geometry/shapes.ts';
import type { TextEdit } from '../manifest/text-edit.ts';
import type { ReviewRest, ReviewRow, SheetReview } from '../panel/sheet-messages.ts';
import { repairFrames, type Repairs } from '../session/fix.ts';
import type { FixedFrame } from '../session/fix-report.ts';
import { degreesOf } from '../session/frame-scene.ts';
import { leftOutWords } from '../session/left-out.ts';
import { isCloser, lengthWords } from '../session/length-change.ts';
import { rewrite } from '../session/rewrite.ts';
import type { Session } from '../session/session.ts';
import type { OpenManifest } from './open-manifest.ts';
import { plainLine } from './plain-text.ts';
import { costlyFrames } from './picture-costs.ts';
import { pictureName, shapeOf, sheetFinding } from './sheet-frames.ts';

/** What somebody asks to be fixed. */
export interface FixQuestion {
  readonly names: ReadonlySet<string>;
  /** Only what this rule says. */
  readonly rule: string | undefined;
}

/** Crops that were found and not yet written. */
export interface PendingFix {
  readonly question: FixQuestion;
  /** As it was when they were found. */
  readonly session: Session;
  readonly fixed: readonly FixedFrame[];
  readonly review: SheetReview;
}

/**
 * Finds the crops that the command line's `fix` would write for these frames.
 * @throws the signal's reason when it aborts
 */
export async function findFixes(
  manifest: OpenManifest,
  question: FixQuestion,
  signal: AbortSignal,
): Promise<PendingFix> {
  const check = await manifest.check(signal);
  const { session } = check;
  const frames = check.frames.filter(({ frame }) => question.names.has(frame.name));
  const rules = question.rule === undefined ? undefined : [question.rule];
  const repairs = await repairFrames({ ...check, frames, findings: [] }, { rules, signal });
  const approved = frames.filter(({ frame }) => frame.final?.value === true).length;
  return { question, session, fixed: repairs.fixed, review: reviewOf(manifest, session, repairs, approved) };
}

/**
 * The edits that write the crops but those of frames that were left out.
 * @throws SessionError when a crop cannot be written
 */
export function editsOf({ session, fixed }: PendingFix, leftOut: readonly number[]): readonly TextEdit[] {
  const kept = fixed.filter(({ frame }) => !leftOut.includes(frame.index));
  return rewrite(session, kept).edits;
}

function reviewOf(manifest: OpenManifest, session: Session, repairs: Repairs, approved: number): SheetReview {
  const { fixed, untouched, needsYou, stopped } = repairs;
  const rest: ReviewRest[] = [
    ...untouched.flatMap(({ frame, troubles }) =>
      troubles.map((finding) => ({ ...restOf(frame), finding: sheetFinding(finding) })),
    ),
    ...needsYou.map(({ frame, finding, reason }) => ({
      ...restOf(frame),
      finding: sheetFinding(finding),
      ...(reason !== undefined && { reason: plainLine(reason) }),
    })),
  ];
  const costly = costlyFrames(fixed).length;
  const notices = [
    stopped && `No frame can be changed before this is mended: ${plainLine(stopped.problem.message)}`,
    costly > 0 && `${costly === 1 ? '1 frame shows' : `${costly} frames show`} less than before; the rows say which.`,
    approved > 0 && `Approved frames stay as they are: ${approved} of those selected.`,
  ].filter((notice) => typeof notice === 'string');
  return {
    rows: fixed.map((one) => rowOf(session, one, manifest.sizeOf(one.frame.photo.value))),
    needsYou: rest,
    ...(notices.length > 0 && { notice: notices.join(' ') }),
  };
}

function rowOf({ people }: Session, fixed: FixedFrame, size?: Size): ReviewRow {
  const { frame, before, after, length, leftOut, moved, repaired } = fixed;
  const photo = frame.photo.value;
  const measured = people.photos.get(photo)?.size ?? size;
  const degrees = degreesOf(frame);
  return {
    index: frame.index,
    name: plainLine(frame.name, 100),
    moved,
    shapes: [shapeOf(before, measured) ?? 1, shapeOf(after, measured) ?? 1],
    before: pictureName(photo, before, degrees),
    after: pictureName(photo, after, degrees),
    ...(length && { length: { words: lengthWords(length), isCloser: isCloser(length) } }),
    ...(leftOut && { leftOut: leftOutWords(leftOut) }),
    mended: [...new Set(repaired.map(({ rule }) => rule))],
  };
}

function restOf(frame: FixedFrame['frame'] | undefined): Pick<ReviewRest, 'index' | 'name'> {
  return frame ? { index: frame.index, name: plainLine(frame.name, 100) } : { name: 'The session' };
}
