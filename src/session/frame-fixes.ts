import { fixesFor } from '../search/index.ts';
import type { FrameCheck } from './frame-check.ts';
import { measuredScene } from './frame-scene.ts';
import { isAboutMainCrop } from './asked.ts';
import type { LocatedFinding } from './located-finding.ts';
import type { Session } from './session.ts';

/**
 * The frame's findings, each with the fixes that were checked. Final frames get none, and what an `allow` covers.
 * @param asked the findings to look for fixes of; absent: all
 */
export function fixesOfFrame(
  session: Session,
  check: FrameCheck,
  asked: readonly LocatedFinding[] = check.findings,
): FrameCheck {
  const { frame } = check;
  const wanted = asked.filter((finding) => finding.allowed === undefined && isAboutMainCrop(finding));
  if (frame.final?.value === true || wanted.length === 0) return check;
  const scene = measuredScene(session, frame);
  if (!scene) return check;
  const fixes = fixesFor(scene, session.configuration.crops, wanted, { allow: [...frame.allow.keys()] });
  return {
    ...check,
    findings: check.findings.map((finding) => {
      const own = fixes.get(finding);
      return own ? { ...finding, fixes: own } : finding;
    }),
  };
}
