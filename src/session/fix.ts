import type { Rectangle } from '../geometry/shapes.ts';
import { effectiveEdges } from '../geometry/crop.ts';
import { diagonalOf, EDGE_NAMES } from '../geometry/shapes.ts';
import { editFrames, type FrameChange } from '../manifest/edit.ts';
import type { Frame } from '../manifest/manifest.ts';
import { parseManifest } from '../manifest/parse.ts';
import { nearestWord } from '../manifest/spelling.ts';
import { applyEdits, type TextEdit } from '../manifest/text-edit.ts';
import type { Finding } from '../rules/finding.ts';
import { identityOf } from '../rules/finding.ts';
import { RULES } from '../rules/index.ts';
import type { Scene } from '../rules/scene.ts';
import { breathe } from './breathe.ts';
import { checkSession, type SessionCheck } from './check.ts';
import type { FrameCheck } from './frame-check.ts';
import { RULE_CATALOGUE } from './file-rules.ts';
import { measuredScene } from './frame-scene.ts';
import { isPressing, type LocatedFinding } from './located-finding.ts';
import { repair, type Repair } from './repair.ts';
import type { Session } from './session.ts';
import { SessionError } from './session-error.ts';
import { readTextFile, writeTextFile } from './text-file.ts';

export interface FixOptions {
  /** Repair only what this rule says. */
  readonly rule?: string | undefined;
  /** Only the frame of this name. */
  readonly frame?: string | undefined;
  /** Come down more than one length where it takes that. */
  readonly anyLength?: boolean | undefined;
  /** Change nothing on the disk. */
  readonly dryRun?: boolean | undefined;
  /** An interrupt before the manifest is written leaves it as it was. */
  readonly signal?: AbortSignal;
}

/** A frame that got a new crop. */
export interface FixedFrame {
  readonly frame: Frame;
  readonly before: Rectangle;
  readonly after: Rectangle;
  /** Sum of the four edges' moves over the photo's diagonal. */
  readonly moved: number;
  /** What the fix removed. */
  readonly repaired: readonly Finding[];
}

/** What no fix could repair. */
export interface Remaining {
  /** Absent when it is about the session as a whole. */
  readonly frame?: Frame;
  readonly finding: Finding;
  readonly reason?: string;
}

export interface FixReport {
  readonly path: string;
  /** Furthest moved first. */
  readonly fixed: readonly FixedFrame[];
  readonly needsYou: readonly Remaining[];
  readonly wasWritten: boolean;
  /** Frames that would be clean if they might come down more than one length. */
  readonly cleanCloser: readonly Frame[];
}

/** What repairing the frames of a checked session comes to; nothing is written yet. */
export interface Repairs extends Pick<FixReport, 'fixed' | 'needsYou' | 'cleanCloser'> {
  /** Edits of the manifest's text that give every fixed frame its crop. */
  readonly edits: readonly TextEdit[];
}

/**
 * Gives every frame with errors or warnings the best crop there is, and writes the manifest: only the characters of the
 * crops change. Final frames are never touched.
 * @throws SessionError when there is no such frame, or the manifest cannot be written or has changed meanwhile
 */
export async function fixSession(session: Session, options: FixOptions = {}): Promise<FixReport> {
  const { signal } = options;
  const check = await checkSession(session, { ...(signal && { signal }) });
  const { edits, ...repairs } = await repairFrames(check, options);
  const wasWritten = edits.length > 0 && options.dryRun !== true;
  if (wasWritten) await writeManifest(session, applyEdits(session.manifest.text, edits));
  return { path: session.path, ...repairs, wasWritten };
}

/**
 * Finds the best crop for every frame with errors or warnings. The command line and the editor both come here.
 * @throws SessionError when there is no such frame, or a crop cannot be written; the signal's reason when it aborts
 */
export async function repairFrames(check: SessionCheck, options: FixOptions = {}): Promise<Repairs> {
  const { session } = check;
  const frames = chooseFrames(session, check.frames, options.frame);
  const isAsked = ({ rule }: Finding): boolean => options.rule === undefined || rule === options.rule;
  const outcomes: Outcome[] = [];
  for (const frame of frames) {
    await breathe(options.signal);
    outcomes.push(outcomeOf(session, frame, options, isAsked));
  }
  const fixed = outcomes.flatMap((outcome) => outcome.fixed ?? []);
  const ofSession = options.frame === undefined ? check.findings.filter(isPressing).filter(isAsked) : [];
  return {
    edits: rewrite(session, fixed),
    fixed: fixed.sort((first, second) => second.moved - first.moved || first.frame.index - second.frame.index),
    needsYou: [...ofSession.map((finding) => ({ finding })), ...outcomes.flatMap(({ remaining }) => remaining)],
    cleanCloser: frames.filter((_, index) => outcomes[index]!.isCleanCloser).map(({ frame }) => frame),
  };
}

interface Outcome {
  readonly fixed?: FixedFrame;
  readonly remaining: readonly Remaining[];
  readonly isCleanCloser?: boolean;
}

function outcomeOf(
  session: Session,
  check: FrameCheck,
  options: FixOptions,
  isAsked: (finding: Finding) => boolean,
): Outcome {
  const { frame } = check;
  const pressing = check.findings.filter(isPressing).filter(isAsked);
  const ofCrop = pressing.filter(isAboutCrop);
  const others = pressing.filter((finding) => !isAboutCrop(finding)).map((finding) => ({ frame, finding }));
  const scene = ofCrop.length > 0 ? measuredScene(session, frame) : undefined;
  if (!scene) return { remaining: [...ofCrop.map((finding) => ({ frame, finding })), ...others] };
  const repaired = repair({
    scene,
    configuration: session.configuration.crops,
    allow: [...frame.allow.keys()],
    rule: options.rule,
    anyLength: options.anyLength === true,
  });
  const left = repaired.remaining.filter(isAsked).map((finding) => remainingOf(frame, finding, repaired));
  return {
    ...(repaired.crop && { fixed: fixedFrame(check, scene, repaired.crop, ofCrop, repaired) }),
    remaining: [...left, ...others],
    isCleanCloser: repaired.isCleanCloser,
  };
}

function isAboutCrop({ rule }: Finding): boolean {
  return RULES.some(({ id }) => id === rule);
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
  const moves = EDGE_NAMES.reduce((sum, edge) => sum + Math.abs(edges[edge] - scene.crop[edge]), 0);
  return {
    frame,
    before: crop,
    after,
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

/** The edits for the new crops, tried out: a frame that would not have exactly its new crop is a fault of ours. */
function rewrite(session: Session, fixed: readonly FixedFrame[]): TextEdit[] {
  const changes = new Map(fixed.map(({ frame, after }): [number, FrameChange] => [frame.index, { crop: after }]));
  const edits = editFrames(session.manifest, changes);
  const again = parseManifest(applyEdits(session.manifest.text, edits), RULE_CATALOGUE);
  for (const { frame, after } of fixed) {
    const crop = again.frames.find(({ index }) => index === frame.index)?.crop?.value;
    const isThere =
      crop && (['x', 'y', 'w', 'h'] as const).every((member) => Math.abs(crop[member] - after[member]) < 1e-9);
    if (!isThere)
      throw new SessionError(
        `The new crop of ${frame.name} cannot be written into ${session.path}; nothing was changed.`,
      );
  }
  return edits;
}

async function writeManifest(session: Session, text: string): Promise<void> {
  if ((await readTextFile(session.path)) !== session.manifest.text) {
    throw new SessionError(
      `${session.path} was changed by somebody else meanwhile; nothing was written. Run the same again.`,
    );
  }
  await writeTextFile(session.path, text);
}
