import type { TextDocument } from 'vscode';
import type { Size } from '../geometry/shapes.ts';
import type { Manifest } from '../manifest/manifest.ts';
import { MAT_PROTOCOL, type MatFrame, type SavedCrop, type ToMat } from '../panel/messages.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { canBeJudged, defaultsOf, sceneOfFrame } from '../session/frame-scene.ts';
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
}

/** What the mat needs to draw and judge a frame by itself; or why it cannot. */
export function frameForMat(session: Session, check: FrameCheck, details: MatFrameDetails): ToMat {
  const { frame } = check;
  const { revision, saved, canTakeBack } = details;
  const measured = session.people.photos.get(frame.photo.value);
  const photo = measured?.size ?? details.size;
  if (!canBeJudged(frame)) return nothing('This frame has values that cannot be read. The text says which.');
  if (!photo) return nothing(whyNoPhoto(session, frame.photo.value, details.state));
  const defaults = defaultsOf(session.manifest);
  const scene = sceneOfFrame(defaults, frame, photo, measured?.people ?? [], measured);
  const { degrees, crop, shape, composition, askedLength, people, subjects, tilt, horizon, symmetry } = scene;
  const { frames } = session.manifest;
  const matFrame: MatFrame = {
    revision,
    name: plainLine(frame.name, 100),
    place: `${frames.findIndex(({ index }) => index === frame.index) + 1} of ${frames.length}`,
    input: { photo, degrees, crop, shape, composition, askedLength, people, subjects, tilt, horizon, symmetry },
    isPaperShape: (frame.aspect?.value ?? defaults.aspect).kind === 'ratio',
    configuration: [...session.configuration.crops],
    allow: [...frame.allow.keys()],
    isFinal: frame.final?.value === true,
    isMeasured: measured !== undefined,
    aboutFiles: check.findings
      .filter(({ rule }) => !session.configuration.crops.has(rule))
      .map(({ rule, severity, message }) => ({ rule, severity, message: plainLine(message) })),
    measuredLevel: measured?.tilt && measured.tilt.confidence >= SURE ? measured.tilt.degrees : undefined,
    saved,
    canTakeBack,
  };
  return { kind: 'frame', protocol: MAT_PROTOCOL, frame: matFrame };
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
