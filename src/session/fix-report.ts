import type { Rectangle } from '../geometry/shapes.ts';
import type { Frame, Problem } from '../manifest/manifest.ts';
import type { Position } from '../manifest/position.ts';
import type { Finding } from '../rules/finding.ts';
import type { LengthChange } from './length-change.ts';
import type { LocatedFinding } from './located-finding.ts';

/** A frame that got a new crop. */
export interface FixedFrame {
  readonly frame: Frame;
  readonly before: Rectangle;
  readonly after: Rectangle;
  /** Where the picture was turned too. */
  readonly straighten?: { readonly before: number; readonly after: number };
  /** Where it shows another length now. */
  readonly length?: LengthChange;
  /** People who were in the picture, and are not any more. */
  readonly leftOut?: readonly number[];
  /** Sum of the four edges' moves over the photo's diagonal. */
  readonly moved: number;
  /** What the fix removed. */
  readonly repaired: readonly Finding[];
}

/** What no fix could repair. */
export interface Remaining {
  /** Absent when it is about the session as a whole. */
  readonly frame?: Frame;
  readonly finding: Finding & Partial<Pick<LocatedFinding, 'range'>>;
  readonly reason?: string;
}

/** A frame that no fix touches, because its photo, its people or its entry are in trouble. */
export interface Untouched {
  readonly frame: Frame;
  /** One or more. */
  readonly troubles: readonly LocatedFinding[];
  /** Errors and warnings about the crop that wait until then. */
  readonly waiting: number;
}

/** A fault of the manifest as a whole, over which no frame is touched. */
export interface Stopped {
  readonly problem: Problem;
  /** Frames with errors or warnings about their crop. */
  readonly waiting: number;
}

export interface FixReport {
  readonly path: string;
  /** Furthest moved first. */
  readonly fixed: readonly FixedFrame[];
  readonly stopped?: Stopped;
  readonly untouched: readonly Untouched[];
  /** What is left of frames that could be touched, and of the session as a whole. */
  readonly needsYou: readonly Remaining[];
  readonly wasWritten: boolean;
  /** Where an offset of the text that was checked stands in the manifest as it is now. */
  readonly positionAt: (offset: number) => Position;
  /** Frames that would be clean if they might come down more than one length. */
  readonly cleanCloser: readonly Frame[];
}
