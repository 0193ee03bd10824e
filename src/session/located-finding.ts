import type { EdgeName } from '../geometry/shapes.ts';
import type { Frame, TextRange } from '../manifest/manifest.ts';
import type { Finding } from '../rules/finding.ts';
import type { Fix } from '../search/index.ts';

/** A finding on the exact text of the manifest that causes it. */
export interface LocatedFinding extends Finding {
  readonly range: TextRange;
  /** The reason that the frame's `allow` gives; such a finding counts nowhere. */
  readonly allowed?: string;
  readonly fixes?: readonly Fix[];
}

/** The member of a written crop that sets an edge. */
const MEMBER_OF_EDGE: Readonly<Record<EdgeName, 'x' | 'y' | 'w' | 'h'>> = {
  left: 'x',
  top: 'y',
  right: 'w',
  bottom: 'h',
};

/** Where a rule's finding about a crop stands: the number that sets the edge, else the crop, else the photo's name. */
export function causeInFrame(frame: Frame, finding: Finding): TextRange {
  if (!frame.crop)
    return frame.straighten && finding.rule === 'outside-photo' ? frame.straighten.range : frame.photo.range;
  if (!finding.edge) return frame.crop.range;
  return frame.crop.value.members[MEMBER_OF_EDGE[finding.edge]].range;
}

/** Errors and warnings that no `allow` covers: what makes a check fail and what a fix repairs. */
export function isPressing(finding: LocatedFinding): boolean {
  return finding.allowed === undefined && finding.severity !== 'info';
}
