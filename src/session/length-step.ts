import type { Rectangle } from '../geometry/shapes.ts';
import type { Frame } from '../manifest/manifest.ts';
import { insertFrameAfter } from '../manifest/edit-list.ts';
import type { TextEdit } from '../manifest/text-edit.ts';
import { rungOf, type Length } from '../people/lengths.ts';
import { foundLength } from '../people/length-spans.ts';
import { ladder } from '../search/index.ts';
import { measuredScene } from './frame-scene.ts';
import type { Session } from './session.ts';

export interface LengthStep {
  readonly length: Length;
  /** The nearest crop of that length, as the manifest writes it. */
  readonly crop: Rectangle;
}

/** The next lengths of a frame on the ladder: one tighter, one wider; absent where the body or the photo has none. */
export interface LengthSteps {
  readonly tighter?: LengthStep;
  readonly wider?: LengthStep;
  /** Every length that fits but the frame's own, from full-length to close-up. */
  readonly others: readonly LengthStep[];
}

/** Where a frame can go on the ladder from the length that its crop shows now. Nowhere when nobody was measured. */
export function lengthSteps(session: Session, frame: Frame): LengthSteps {
  const scene = measuredScene(session, frame);
  const present = scene?.tallest && foundLength(scene.tallest, scene.crop);
  if (!scene || !present) return { others: [] };
  const steps = ladder(scene, session.configuration.crops, { allow: [...frame.allow.keys()] }).map(
    ({ length, answer }) => ({ length, crop: answer.crop }),
  );
  const tighter = steps.find(({ length }) => rungOf(length) > rungOf(present));
  const wider = steps.findLast(({ length }) => rungOf(length) < rungOf(present));
  const others = steps.filter(({ length }) => length !== present);
  return { ...(tighter && { tighter }), ...(wider && { wider }), others };
}

/**
 * The edits that add a frame with another length of the same photo right after this one. It has this frame's shape,
 * straightening, people and composition; notes, reasons and approval are not for it.
 */
export function addLength(session: Session, frame: Frame, { length, crop }: LengthStep): TextEdit[] {
  const { photo, straighten, aspect, subjects, compose } = frame;
  return insertFrameAfter(session.manifest, frame.index, {
    photo: photo.value,
    crop,
    ...(straighten && straighten.value !== 0 && { straighten: straighten.value }),
    ...(aspect && { aspect: aspect.value }),
    length,
    ...(subjects && { subjects: subjects.value }),
    ...(compose && { compose: compose.value }),
  });
}
