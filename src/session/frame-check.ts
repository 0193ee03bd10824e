import type { Rectangle, Size } from '../geometry/shapes.ts';
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
import { canBeJudged, cropOf, degreesOf, sceneOfFrame, withoutLines } from './frame-scene.ts';
import { causeInFrame, located, type LocatedFinding } from './located-finding.ts';
import { findInOutputs, type FoundOfOutputs, type OutputCheck } from './outputs/output-findings.ts';
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
  /** The crops that outputs have of it, by output. */
  readonly outputs?: ReadonlyMap<string, OutputCheck>;
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

/** Everything that is found about a frame. */
export function checkFrame(context: CheckContext, input: FrameInput): FrameCheck {
  const main = checkMain(context, input);
  return withOutputs(main, checkOutputs(context, input, main.findings));
}

/** What is found about the frame's files and its main crop, whatever outputs make of it: a pure function of what it is given. */
export function checkMain(context: CheckContext, input: FrameInput): FrameCheck {
  const { frame } = input;
  const scene = sceneOfInput(context, input);
  return {
    frame,
    crop: cropOf(frame, sizeOf(input)),
    straighten: degreesOf(frame),
    ...(scene?.length && { length: scene.length, lengthFrom: scene.askedLength ? 'asked' : 'found' }),
    findings: mainFindings(context, input, scene),
  };
}

/**
 * What is found about the crops that outputs have of the frame; most of a check's time is spent here.
 * @param main what was found about its main crop
 */
export function checkOutputs(
  context: CheckContext,
  input: FrameInput,
  main: readonly LocatedFinding[],
): FoundOfOutputs {
  const { frame } = input;
  const scene = context.outputs.length > 0 ? sceneOfInput(context, input) : undefined;
  if (!scene) return NOTHING_OF_OUTPUTS;
  const crops = context.configuration.crops;
  const { findings, checks } = findInOutputs(context.outputs, crops, frame, withoutLines(scene), main);
  return { findings: asFrameTakesIt(frame, findings), checks: asFrameTakesThem(frame, checks) };
}

const NOTHING_OF_OUTPUTS: FoundOfOutputs = { findings: [], checks: new Map() };

/** The same without what the frame allows; of a frame that is approved as it is, hints. */
function asFrameTakesThem(frame: Frame, checks: ReadonlyMap<string, OutputCheck>): ReadonlyMap<string, OutputCheck> {
  const isFinal = frame.final?.value === true;
  if (!isFinal && frame.allow.size === 0) return checks;
  const keys = [...frame.allow.keys()];
  const taken = new Map<string, OutputCheck>();
  for (const [id, check] of checks) {
    const findings = check.findings.filter((finding) => !keys.some((key) => isCoveredBy(key, finding)));
    taken.set(id, {
      ...check,
      findings: isFinal ? findings.map((finding) => ({ ...finding, severity: 'info' as const })) : findings,
    });
  }
  return taken;
}

/** Both; what the frame allows of outputs is not said to be allowed in vain. */
export function withOutputs(main: FrameCheck, { findings: found, checks }: FoundOfOutputs): FrameCheck {
  if (found.length === 0) return checks.size === 0 ? main : { ...main, outputs: checks };
  const isNeeded = ({ rule, range }: LocatedFinding): boolean =>
    rule === 'unused-allow' &&
    [...main.frame.allow].some(
      ([key, allowance]) => allowance.key.start === range.start && found.some((finding) => isCoveredBy(key, finding)),
    );
  const findings = [...main.findings.filter((finding) => !isNeeded(finding)), ...found];
  return { ...main, findings, outputs: checks };
}

/** Of what was found about a frame's main crop what stays whatever is found about those of its outputs. */
export function certain(main: FrameCheck): FrameCheck {
  return { ...main, findings: main.findings.filter(({ rule }) => rule !== 'unused-allow') };
}

/** The photo's size, as measured or as it was looked up. */
export function sizeOf({ measured, state }: FrameInput): Size | undefined {
  return measured?.size ?? (state && 'size' in state ? state.size : undefined);
}

function sceneOfInput(context: CheckContext, input: FrameInput): Scene | undefined {
  const { frame, measured } = input;
  const size = sizeOf(input);
  return size && canBeJudged(frame) ? sceneOfFrame(context, frame, size, measured?.people ?? [], measured) : undefined;
}

/** What is found about the frame's files and its main crop. */
function mainFindings(
  context: CheckContext,
  { frame, problems, measured, state }: FrameInput,
  scene: Scene | undefined,
): readonly LocatedFinding[] {
  const files = new FileFindings(context);
  const found: LocatedFinding[] = [];
  for (const problem of problems) found.push(...files.ofProblem(problem));
  found.push(...files.ofFrame(frame, state ?? ABSENT, measured));
  if (scene) found.push(...cropFindings(context.configuration.crops, frame, scene));
  const told = asFrameTakesIt(frame, found);
  if (!measured || !scene || frame.allow.size === 0) return told;
  return [...told, ...files.ofAllowances(frame, found)];
}

function cropFindings(configuration: Configuration, frame: Frame, scene: Scene): LocatedFinding[] {
  return checkScene(scene, configuration).map((finding) => located(finding, causeInFrame(frame, finding)));
}

/** Findings with the frame's reasons for allowing them; those of a frame that is approved as it is are hints. */
function asFrameTakesIt(frame: Frame, findings: readonly LocatedFinding[]): readonly LocatedFinding[] {
  const isFinal = frame.final?.value === true;
  if (!isFinal && frame.allow.size === 0) return findings;
  return findings.map((finding) => {
    const allowed = withAllowance(frame, finding);
    return isFinal ? asHint(allowed) : allowed;
  });
}

/** What is approved as it is; a file in trouble stays in trouble. */
function asHint(finding: LocatedFinding): LocatedFinding {
  return isAboutCrop(finding) ? { ...finding, severity: 'info' } : finding;
}

/** The finding with the reason that the frame's `allow` gives for it, if it does. */
export function withAllowance(frame: Frame, finding: LocatedFinding): LocatedFinding {
  for (const [key, { value }] of frame.allow) if (isCoveredBy(key, finding)) return { ...finding, allowed: value };
  return finding;
}
