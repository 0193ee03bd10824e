import type { Rectangle } from '../geometry/shapes.ts';
import type { Frame, Problem } from '../manifest/manifest.ts';
import type { Length } from '../people/lengths.ts';
import type { PhotoPeople } from '../people/person.ts';
import type { Configuration } from '../rules/configuration.ts';
import { isCoveredBy } from '../rules/finding.ts';
import { checkScene } from '../rules/report.ts';
import type { Scene } from '../rules/scene.ts';
import { isAboutCrop } from './asked.ts';
import type { CheckContext } from './check-context.ts';
import { FileFindings } from './file-findings.ts';
import { canBeJudged, cropOf, degreesOf, sceneOfFrame } from './frame-scene.ts';
import { causeInFrame, type LocatedFinding } from './located-finding.ts';
import { outputFindings } from './outputs/output-findings.ts';
import type { PhotoState } from './photo-states.ts';

/** One frame with everything that was found about it. */
export interface FrameCheck {
  readonly frame: Frame;
  /** Effective, in fractions. */
  readonly crop: Rectangle;
  /** Effective, in degrees. */
  readonly straighten: number;
  readonly length?: Length;
  readonly lengthFrom?: 'asked' | 'found';
  readonly findings: readonly LocatedFinding[];
}

/** What belongs to one frame. */
export interface FrameInput {
  readonly frame: Frame;
  /** Of the manifest, in this frame. */
  readonly problems: readonly Problem[];
  readonly measured: PhotoPeople | undefined;
  readonly state: PhotoState | undefined;
}

const ABSENT: PhotoState = { kind: 'absent' };

/** What is wrong with one frame: a pure function of what it is given. */
export function checkFrame(context: CheckContext, { frame, problems, measured, state }: FrameInput): FrameCheck {
  const files = new FileFindings(context);
  const size = measured?.size ?? (state && 'size' in state ? state.size : undefined);
  const scene = size && canBeJudged(frame) && sceneOfFrame(context, frame, size, measured?.people ?? [], measured);
  const found = [
    ...problems.flatMap((problem) => files.ofProblem(problem)),
    ...files.ofFrame(frame, state ?? ABSENT, measured),
    ...(scene ? cropFindings(context.configuration.crops, frame, scene) : []),
  ].map((finding) => withAllowance(frame, finding));
  const all = measured && scene ? [...found, ...files.ofAllowances(frame, found)] : found;
  return {
    frame,
    crop: cropOf(frame, size),
    straighten: degreesOf(frame),
    ...(scene && scene.length && { length: scene.length, lengthFrom: scene.askedLength ? 'asked' : 'found' }),
    findings: frame.final?.value === true ? all.map(asHint) : all,
  };
}

/**
 * The same with what is found about the crops that outputs have of the frame. Apart from `checkFrame`, because each of
 * these crops may have to be searched for.
 */
export function withOutputs(
  context: CheckContext,
  { frame, measured, state }: FrameInput,
  check: FrameCheck,
): FrameCheck {
  const size = measured?.size ?? (state && 'size' in state ? state.size : undefined);
  if (context.outputs.length === 0 || !size || !canBeJudged(frame)) return check;
  const scene = sceneOfFrame(context, frame, size, measured?.people ?? []);
  const found = outputFindings(context.outputs, context.configuration.crops, frame, scene, check.findings)
    .map((finding) => withAllowance(frame, finding))
    .map((finding) => (frame.final?.value === true ? asHint(finding) : finding));
  if (found.length === 0) return check;
  const isNeeded = ({ rule, range }: LocatedFinding): boolean =>
    rule === 'unused-allow' &&
    [...frame.allow].some(
      ([key, allowance]) => allowance.key.start === range.start && found.some((finding) => isCoveredBy(key, finding)),
    );
  return { ...check, findings: [...check.findings.filter((finding) => !isNeeded(finding)), ...found] };
}

function cropFindings(configuration: Configuration, frame: Frame, scene: Scene): LocatedFinding[] {
  return checkScene(scene, configuration).map((finding) => ({ ...finding, range: causeInFrame(frame, finding) }));
}

/** What is approved as it is; a file in trouble stays in trouble. */
function asHint(finding: LocatedFinding): LocatedFinding {
  return isAboutCrop(finding) ? { ...finding, severity: 'info' } : finding;
}

/** The finding with the reason that the frame's `allow` gives for it, if it does. */
export function withAllowance(frame: Frame, finding: LocatedFinding): LocatedFinding {
  const allowance = [...frame.allow].find(([key]) => isCoveredBy(key, finding));
  return allowance ? { ...finding, allowed: allowance[1].value } : finding;
}
