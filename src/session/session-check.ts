import type { FrameCheck } from './frame-check.ts';
import type { LocatedFinding } from './located-finding.ts';
import type { Session } from './session.ts';

/** One manifest that was checked. */
export interface SessionCheck {
  readonly session: Session;
  /** About the manifest, the people file and the photos as a whole. */
  readonly findings: readonly LocatedFinding[];
  readonly frames: readonly FrameCheck[];
}
