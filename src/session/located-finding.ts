import type { EdgeName } from '../geometry/shapes.ts';
import type { Crop, Frame, Located, TextRange } from '../manifest/manifest.ts';
import type { Finding } from '../rules/finding.ts';
import type { Fix } from '../search/index.ts';

/** A finding on the exact text of the manifest that causes it. */
export interface LocatedFinding extends Finding {
  readonly range: TextRange;
  /** The reason that the frame's `allow` gives; such a finding counts nowhere. */
  readonly allowed?: string;
  readonly fixes?: readonly Fix[];
  /** The output whose crop it is about; absent: the frame's main crop. */
  readonly output?: string;
}

/** A rule's finding at its place. Written out, for a copy takes three times as long. */
export function located(finding: Finding, range: TextRange): LocatedFinding {
  const { rule, severity, message, person, joint, edge, value, limit, possible, related } = finding;
  return { rule, severity, message, person, joint, edge, value, limit, possible, related, range };
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
  return causeInCrop(frame.crop, finding);
}

/** The number of a written crop that sets the finding's edge, else the crop. */
export function causeInCrop(crop: Located<Crop>, { edge }: Finding): TextRange {
  return edge ? crop.value.members[MEMBER_OF_EDGE[edge]].range : crop.range;
}

/** Errors and warnings that no `allow` covers: what makes a check fail and what a fix repairs. */
export function isPressing(finding: LocatedFinding): boolean {
  return finding.allowed === undefined && finding.severity !== 'info';
}

/** Findings of a text that has moved by so many characters. */
export function moved(findings: readonly LocatedFinding[], distance: number): readonly LocatedFinding[] {
  if (distance === 0) return findings;
  return findings.map((finding) => {
    const { start, end } = finding.range;
    return { ...finding, range: { start: start + distance, end: end + distance } };
  });
}
