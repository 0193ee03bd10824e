import type { Rectangle } from '../geometry/shapes.ts';
import type { Frame } from '../manifest/manifest.ts';
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
}

/** Where a frame can go on the ladder from the length that its crop shows now. Nowhere when nobody was measured. */
export function lengthSteps(session: Session, frame: Frame): LengthSteps {
  const scene = measuredScene(session, frame);
  const present = scene?.tallest && foundLength(scene.tallest, scene.crop);
  if (!scene || !present) return {};
  const steps = ladder(scene, session.configuration.crops, { allow: [...frame.allow.keys()] }).map(
    ({ length, answer }) => ({ length, crop: answer.crop }),
  );
  const tighter = steps.find(({ length }) => rungOf(length) > rungOf(present));
  const wider = steps.findLast(({ length }) => rungOf(length) < rungOf(present));
  return { ...(tighter && { tighter }), ...(wider && { wider }) };
}
