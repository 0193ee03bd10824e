import type { Rectangle } from '../geometry/shapes.ts';
import { effectiveEdges } from '../geometry/crop.ts';
import { diagonalOf, EDGE_NAMES } from '../geometry/shapes.ts';
import type { Frame } from '../manifest/manifest.ts';
import { LineIndex } from '../manifest/position.ts';
import { nearestWord } from '../manifest/spelling.ts';
import type { Finding } from '../rules/finding.ts';
import { identityOf } from '../rules/finding.ts';
import type { Scene } from '../rules/scene.ts';
import type { Configuration } from '../rules/configuration.ts';
import { askedFor, isAboutMainCrop, isNamedBy, isPreventing } from './asked.ts';
import { breathe } from './breathe.ts';
import { checkSession } from './check.ts';
import type { FixedFrame, FixReport, Remaining, Untouched } from './fix-report.ts';
import type { FrameCheck } from './frame-check.ts';
import { measuredScene } from './frame-scene.ts';
import { removeLeftovers } from './leftovers.ts';
import { outputsAfter } from './outputs/outputs-after.ts';
import { peopleLeftOut } from './left-out.ts';
import { lengthChange } from './length-change.ts';
import { isPressing, type LocatedFinding } from './located-finding.ts';
import { repair, type Repair, type RepairQuestion } from './repair.ts';
import { movedOffset, rewrite, writeManifest, type Rewritten } from './rewrite.ts';
import type { Session } from './session.ts';
import type { SessionCheck } from './session-check.ts';
import { SessionError } from './session-error.ts';
import { problemOfWhole } from './trust.ts';
import { turnFrame, type TurnedFrame } from './turn-frame.ts';

export interface FixOptions {
  /** Repair only what these rules say. Absent or none: what all say. */
  readonly rules?: readonly string[] | undefined;
  /** Only the frame of this name. */
  readonly frame?: string | undefined;
  /** Come down more than one length where it takes that. */
  readonly anyLength?: boolean | undefined;
  /** Change nothing on the disk. */
  readonly dryRun?: boolean | undefined;
  /** An interrupt before the manifest is written leaves it as it was. */
  readonly signal?: AbortSignal;
}

/** What repairing the frames of a checked session comes to; nothing is written yet. */
export interface Repairs extends Omit<FixReport, 'path' | 'wasWritten' | 'positionAt'>, Rewritten {}

/**
 * Gives every frame with errors or warnings the best crop there is, and writes the manifest: only the characters of the
 * crops change. Final frames are never touched, nor those of which the photo, the people or the entry are in trouble.
 * @throws SessionError when there is no such frame, or the manifest cannot be written or has changed meanwhile
 */
export async function fixSession(session: Session, options: FixOptions = {}): Promise<FixReport> {
  const { signal, dryRun = false } = options;
  if (!dryRun) await removeLeftovers([session.path]);
  const check = await checkSession(session, { rules: options.rules, ...(signal && { signal }) });
  const { text, edits, ...repairs } = await repairFrames(check, options);
  const wasWritten = edits.length > 0 && !dryRun;
  if (wasWritten) await writeManifest(session, text);
  const lines = new LineIndex(dryRun ? session.manifest.text : text);
  return {
    path: session.path,
    ...repairs,
    wasWritten,
    positionAt: (offset) => lines.positionAt(dryRun ? offset : movedOffset(edits, offset)),
  };
}

/**
 * Finds the best crop for every frame with errors or warnings. The command line and the editor both come here.
 * @param check with the findings of the rules that the options ask for
 * @throws SessionError when there is no such frame, or a crop cannot be written; the signal's reason when it aborts
 */
export async function repairFrames(check: SessionCheck, options: FixOptions = {}): Promise<Repairs> {
  const { session } = check;
  const isAsked = askedFor(options.rules);
  const frames = chooseFrames(session, check.frames, options.frame).map((frame) => ({
    ...frame,
    findings: frame.findings.filter(isAsked),
  }));
  const problem = problemOfWhole(session);
  const outcomes: Outcome[] = [];
  for (const frame of frames) {
    await breathe(options.signal);
    outcomes.push(outcomeOf(session, frame, options, problem !== undefined));
  }
  const fixed = outcomes.flatMap((outcome) => outcome.fixed ?? []);
  const ofSession = options.frame === undefined ? check.findings.filter(isAsked).filter(isPressing) : [];
  return {
    ...rewrite(session, fixed),
    fixed: fixed.sort((first, second) => second.moved - first.moved || first.frame.index - second.frame.index),
    ...(problem && { stopped: { problem, waiting: outcomes.filter(({ waits }) => waits).length } }),
    untouched: outcomes.flatMap(({ untouched }) => untouched ?? []),
    needsYou: [
      ...ofSession.filter(({ range }) => range !== problem?.range).map((finding) => ({ finding })),
      ...outcomes.flatMap(({ remaining }) => remaining),
    ],
    cleanCloser: frames.filter((_, index) => outcomes[index]!.isCleanCloser).map(({ frame }) => frame),
  };
}

interface Outcome {
  readonly fixed?: FixedFrame;
  readonly untouched?: Untouched;
  readonly remaining: readonly Remaining[];
  readonly isCleanCloser?: boolean;
  /** The frame would be repaired if the manifest as a whole were sound. */
  readonly waits?: boolean;
}

function outcomeOf(session: Session, check: FrameCheck, options: FixOptions, isStopped: boolean): Outcome {
  const { frame } = check;
  const named = options.rules?.length === 0 ? undefined : options.rules;
  const pressing = check.findings.filter((finding) => isToMend(finding, frame, named));
  const ofCrop = pressing.filter(isAboutMainCrop);
  const troubles = pressing.filter(isPreventing);
  if (troubles.length > 0) return { untouched: { frame, troubles, waiting: ofCrop.length }, remaining: [] };
  const others = pressing.filter((finding) => !isAboutMainCrop(finding)).map((finding) => ({ frame, finding }));
  if (isStopped) return { remaining: others, waits: ofCrop.length > 0 };
  const scene = ofCrop.length > 0 ? measuredScene(session, frame) : undefined;
  if (!scene) return { remaining: [...ofCrop.map((finding) => ({ frame, finding })), ...others] };
  const question: RepairQuestion = {
    scene,
    configuration: raised(session.configuration.crops, named),
    allow: [...frame.allow.keys()],
    // What a rule only explains is another rule's to mend.
    rules: named && [...named, ...ofCrop.map(({ rule }) => rule)],
    anyLength: options.anyLength === true,
  };
  const turning = turnFrame({ ...question, configuration: session.configuration.crops }, ofCrop);
  const isAskedFor = askedFor(named);
  // The crops of outputs follow the main one: what was found about them is no longer so.
  const othersAfter = ({ after, straighten }: FixedFrame, main: readonly Finding[]): Remaining[] => [
    ...others.filter(({ finding }) => finding.output === undefined),
    ...outputsAfter(session, frame, { crop: after, straighten: straighten?.after ?? check.straighten }, main)
      // Over an error no file is made, whatever rule was asked for: turning the picture may bring a corner out of it.
      .filter((finding) => finding.severity === 'error' || isAskedFor(finding))
      .map((finding) => ({ frame, finding })),
  ];
  if (turning) {
    const { turned } = turning;
    if (!turned) return { remaining: [...unturned(frame, ofCrop, turning.reason), ...others] };
    const fixed = turnedFrame(check, scene, turned, ofCrop);
    return { fixed, remaining: othersAfter(fixed, turned.remaining) };
  }
  const repaired = repair(question);
  const left = repaired.remaining
    .filter(({ rule }) => !question.rules || question.rules.includes(rule))
    .map((finding) => remainingOf(frame, finding, repaired));
  const { crop, isCleanCloser } = repaired;
  if (!crop) return { remaining: [...left, ...others], isCleanCloser };
  const fixed = fixedFrame(check, scene, crop, ofCrop, repaired);
  return { fixed, remaining: [...left, ...othersAfter(fixed, repaired.remaining)], isCleanCloser };
}

function unturned(frame: Frame, findings: readonly LocatedFinding[], reason: string | undefined): Remaining[] {
  return findings.map((finding) => ({ frame, finding, ...(reason !== undefined && { reason }) }));
}

function turnedFrame(
  { frame, crop, straighten }: FrameCheck,
  scene: Scene,
  turned: TurnedFrame,
  findings: readonly LocatedFinding[],
): FixedFrame {
  const left = new Set(turned.remaining.map(identityOf));
  const length = lengthChange(scene, turned.crop, turned.straighten);
  const leftOut = peopleLeftOut(scene, turned.crop, turned.straighten);
  return {
    frame,
    before: crop,
    after: turned.crop,
    straighten: { before: straighten, after: turned.straighten },
    ...(length && { length }),
    ...(leftOut.length > 0 && { leftOut }),
    moved: turned.moved,
    repaired: findings.filter((finding) => !left.has(identityOf(finding))),
  };
}

/** What a fix is for: errors and warnings, and hints of the rules that are asked for by name. */
function isToMend(finding: LocatedFinding, frame: Frame, named: readonly string[] | undefined): boolean {
  if (isPressing(finding)) return true;
  const isNamed = named !== undefined && isNamedBy(named, finding) && isAboutMainCrop(finding);
  return isNamed && finding.allowed === undefined && frame.final?.value !== true;
}

/** Who asks for a hint by name means it like a warning. */
function raised(configuration: Configuration, named: readonly string[] = []): Configuration {
  return new Map(
    [...configuration].map(([rule, own]) => [
      rule,
      named.includes(rule) && own.severity === 'info' ? { ...own, severity: 'warning' } : own,
    ]),
  );
}

function remainingOf(frame: Frame, finding: Finding, { reasons }: Repair): Remaining {
  const reason = reasons.get(identityOf(finding));
  return { frame, finding, ...(reason !== undefined && { reason }) };
}

function fixedFrame(
  { frame, crop }: FrameCheck,
  scene: Scene,
  after: Rectangle,
  findings: readonly LocatedFinding[],
  { remaining }: Repair,
): FixedFrame {
  const left = new Set(remaining.map(identityOf));
  const edges = effectiveEdges(after, scene.photo, scene.degrees);
  const length = lengthChange(scene, after);
  const leftOut = peopleLeftOut(scene, after);
  const moves = EDGE_NAMES.reduce((sum, edge) => sum + Math.abs(edges[edge] - scene.crop[edge]), 0);
  return {
    frame,
    before: crop,
    after,
    ...(length && { length }),
    ...(leftOut.length > 0 && { leftOut }),
    moved: moves / diagonalOf(scene.photo),
    repaired: findings.filter((finding) => !left.has(identityOf(finding))),
  };
}

function chooseFrames(
  session: Session,
  frames: readonly FrameCheck[],
  name: string | undefined,
): readonly FrameCheck[] {
  if (name === undefined) return frames;
  const chosen = frames.filter(({ frame }) => frame.name === name);
  if (chosen.length > 0) return chosen;
  const meant = nearestWord(
    name,
    frames.map(({ frame }) => frame.name),
  );
  const hint =
    meant === undefined
      ? 'Frames are named by their photo; NAME#2 is the second of a photo.'
      : `Did you mean ${meant}?`;
  throw new SessionError(`${session.path} has no frame "${name}". ${hint}`);
}
