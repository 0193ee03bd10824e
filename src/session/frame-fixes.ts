import { fixesFor } from '../search/index.ts';
import type { FrameCheck } from './frame-check.ts';
import { measuredScene } from './frame-scene.ts';
import { isPressing } from './located-finding.ts';
import type { Session } from './session.ts';

/** The frame's findings, each with the fixes that were checked. Final frames get none. */
export function fixesOfFrame(session: Session, check: FrameCheck): FrameCheck {
  const { frame } = check;
  const pressing = check.findings.filter((finding) => isPressing(finding) && finding.output === undefined);
  if (frame.final?.value === true || pressing.length === 0) return check;
  const scene = measuredScene(session, frame);
  if (!scene) return check;
  const fixes = fixesFor(scene, session.configuration.crops, pressing, { allow: [...frame.allow.keys()] });
  return {
    ...check,
    findings: check.findings.map((finding) => {
      const own = fixes.get(finding);
      return own ? { ...finding, fixes: own } : finding;
    }),
  };
}
