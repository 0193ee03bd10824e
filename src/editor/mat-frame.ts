import type { TextDocument } from 'vscode';
import { largestCentred } from '../geometry/crop.ts';
import type { Size } from '../geometry/shapes.ts';
import type { Aspect, Frame, Manifest, Output } from '../manifest/manifest.ts';
import { MAT_PROTOCOL, type FoundInOutput, type MatFrame, type MatOutput, type SavedCrop, type ToMat } from '../panel/messages.ts'; // prettier-ignore
import { SEVERITIES, type Severity } from '../rules/rule.ts';
import { withCrop, type Scene } from '../rules/scene.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { canBeJudged, defaultsOf, sceneOfFrame, withoutLines } from '../session/frame-scene.ts';
import { outputCrop, shapeOfOutput } from '../session/outputs/output-crop.ts';
import type { LocatedFinding } from '../session/located-finding.ts';
import type { PhotoState } from '../session/photo-states.ts';
import type { Session } from '../session/session.ts';
import { plainLine } from './plain-text.ts';

/** Below, measuring gives no answer about the level. */
const SURE = 0.5;

/** What the mat is told beside what the session says. */
export interface MatFrameDetails {
  readonly revision: number;
  /** The photo's size when nobody has measured it. */
  readonly size: Size | undefined;
  /** What the disk says of it; undefined while it is being looked at. */
  readonly state: PhotoState | undefined;
  readonly saved: SavedCrop | undefined;
  readonly canTakeBack: boolean;
  /** Whose crop lies on the mat; undefined: the main crop. */
  readonly output: Output | undefined;
}

/** What the mat needs to draw and judge a frame by itself; or why it cannot. */
export function frameForMat(session: Session, check: FrameCheck, details: MatFrameDetails): ToMat {
  const { frame } = check;
  const { revision, saved, canTakeBack, output } = details;
  const measured = session.people.photos.get(frame.photo.value);
  const photo = measured?.size ?? details.size;
  if (!canBeJudged(frame)) return nothing('This frame has values that cannot be read. The text says which.');
  if (!photo) return nothing(whyNoPhoto(session, frame.photo.value, details.state));
  const defaults = defaultsOf(session.manifest);
  const main = sceneOfFrame(defaults, frame, photo, measured?.people ?? [], measured);
  const { scene, reason } = output ? sceneFor(session, frame, main, output) : { scene: main };
  const { degrees, crop, shape, composition, askedLength, people, subjects, tilt, horizon, symmetry, print } = scene;
  const { frames, deliver } = session.manifest;
  const aboutOutputs = check.findings.flatMap(foundInOutput);
  const aboutFiles = check.findings.filter(({ rule }) => !session.configuration.crops.has(rule)).map(plainFinding);
  const matFrame: MatFrame = {
    revision,
    name: plainLine(frame.name, 100),
    place: `${frames.findIndex(({ index }) => index === frame.index) + 1} of ${frames.length}`,
    output: output?.id,
    whyNone: reason && plainLine(reason),
    outputs: [...deliver.keys()].map((id) => matOutput(id, frame, aboutOutputs)),
    input: { photo, degrees, crop, shape, composition, askedLength, people, subjects, tilt, horizon, symmetry, print },
    isPaperShape: output ? isHeldAsItsCrop(output) : isRatio(frame.aspect?.value ?? defaults.aspect),
    configuration: [...session.configuration.crops],
    allow: [...frame.allow.keys()],
    isFinal: frame.final?.value === true,
    isMeasured: measured !== undefined,
    aboutFiles,
    aboutOutputs: output ? [] : aboutOutputs,
    measuredLevel: measured?.tilt && measured.tilt.confidence >= SURE ? measured.tilt.degrees : undefined,
    saved: output ? undefined : saved,
    canTakeBack,
  };
  return { kind: 'frame', protocol: MAT_PROTOCOL, frame: matFrame };
}

/** The frame as an output cuts it; with the largest crop of its shape, and the reason, where none is found. */
function sceneFor(session: Session, frame: Frame, main: Scene, output: Output): { scene: Scene; reason?: string } {
  const scene = withoutLines(main);
  const found = outputCrop(scene, session.configuration.crops, frame, output);
  if (!('reason' in found)) return { scene: found.scene };
  const shape = shapeOfOutput(output, scene.photo, scene.crop);
  if (shape === undefined) return { scene, reason: found.reason };
  const crop = largestCentred(scene.photo, scene.degrees, shape);
  return { scene: withCrop({ ...scene, shape }, crop), reason: found.reason };
}

function isHeldAsItsCrop({ aspect, paper, orientation }: Output): boolean {
  return orientation === undefined && (paper !== undefined || (aspect !== undefined && isRatio(aspect.value)));
}

function isRatio({ kind }: Aspect): boolean {
  return kind === 'ratio';
}

function plainFinding({ rule, severity, message }: LocatedFinding): MatFrame['aboutFiles'][number] {
  return { rule, severity, message: plainLine(message) };
}

function foundInOutput(finding: LocatedFinding): FoundInOutput[] {
  const { output, joint, allowed } = finding;
  if (output === undefined || allowed !== undefined) return [];
  return [{ ...plainFinding(finding), output, ...(joint !== undefined && { joint }) }];
}

function matOutput(id: string, frame: Frame, found: readonly FoundInOutput[]): MatOutput {
  const severities = found.filter(({ output }) => output === id).map(({ severity }) => severity);
  return {
    id,
    isOwn: frame.deliver.has(id),
    worst: SEVERITIES.find((severity): severity is Severity => severities.some((each) => each === severity)),
  };
}

export function nothing(reason: string): ToMat {
  return { kind: 'nothing', reason };
}

/** Why nothing is known of a photo, and what can be done. */
function whyNoPhoto({ photosFolder }: Session, photo: string, state: PhotoState | undefined): string {
  if ('refused' in photosFolder) return plainLine(photosFolder.refused);
  const name = plainLine(photo, 100);
  switch (state?.kind) {
    case undefined:
      return `${name} is being looked at.`;
    case 'absent': {
      const hint = state.meant === undefined ? '' : ` Did you mean ${plainLine(state.meant, 100)}?`;
      const place = plainLine(photosFolder.path);
      return `${name} is not there; it was looked for in ${place}.${hint} Check the name, or put the photo there.`;
    }
    case 'unusable':
      return plainLine(state.message);
    default: {
      const trouble = state?.kind === 'present' ? state.trouble : undefined;
      return `${name}: ${plainLine(trouble ?? 'Its size cannot be read.')}`;
    }
  }
}

/** Why the text has no frame at the cursor. */
export function whyNoFrame({ problems }: Manifest, document: Pick<TextDocument, 'positionAt'>): string {
  const broken = problems.find(({ severity }) => severity === 'error');
  if (!broken) return 'Put the cursor on a frame.';
  return `The text cannot be read from line ${document.positionAt(broken.range.start).line + 1} on. The text says why.`;
}
