import { effectiveEdges, defaultCrop } from '../../geometry/crop.ts';
import type { Frame } from '../../manifest/manifest.ts';
import { tighterThan } from '../../people/lengths.ts';
import { foundLength } from '../../people/length-spans.ts';
import type { PhotoPeople } from '../../people/person.ts';
import type { Region } from '../../people/regions.ts';
import { isCoveredBy } from '../../rules/finding.ts';
import { sceneOf, type Scene } from '../../rules/scene.ts';
import { nearestCrop } from '../../search/index.ts';
import { breathe } from '../breathe.ts';
import { canBeJudged } from '../frame-scene.ts';
import type { Session } from '../session.ts';
import { handsInTheWay, isFootBeforeFoot, type UsualCrop } from './body.ts';
import { lowestReach } from './reach.ts';

/** What a session's photos, as they came out of the camera, can teach for the next. Every photo counts once. */
export interface SessionNotes {
  readonly title?: string;
  readonly photos: number;
  /** Photos in which somebody was measured; the rest has nothing to say. */
  readonly notes: readonly PhotoNotes[];
}

export interface PhotoNotes {
  readonly photo: string;
  /** The straightening that levels the photo; absent where nothing tells it. */
  readonly levelling?: number;
  /** Of a photo that leans and shows the feet: what levelling leaves under them. */
  readonly feet?: FeetAfterLevelling;
  /** Room over the highest head, in percent of the photo's height; negative where the photo cuts it. */
  readonly overHead?: number;
  /** The usual crops that would go through a hand; absent where no hand was found in the photo. */
  readonly hands?: readonly UsualCrop[];
  /** Whether somebody puts one foot in front of the other; absent where no legs were found. */
  readonly footBeforeFoot?: boolean;
  /** Whether a clean crop of the level photo has the length as shot, needs to be one length closer, or more. */
  readonly clean?: 'as-shot' | 'one-closer' | 'further';
}

export interface FeetAfterLevelling {
  /** Percent of the photo's height that are missing; 0 where the feet stay in; absent where it cannot be told. */
  readonly missing?: number;
}

/** More is a tilt on purpose. */
const MOST_LEAN = 8;
const LEAST_CONFIDENCE = 0.5;
/** Less than this needs no levelling: tilt's own bound. */
const LEAST_LEAN = 0.5;
/** Room that the feet keep, as a share of the short side (edge-clearance's own default), where they had it. */
const UNDER_FEET = 0.03;
/** Room that the heads keep, as a share of the crop's height (DESIGN, Per length), where they had it. */
const LEAST_OVER_HEAD = 0.04;

/**
 * Reads only the people file and what the manifest says of straightening and subjects; no photo is opened.
 * @throws the signal's reason when it aborts
 */
export async function notesOf(session: Session, signal?: AbortSignal): Promise<SessionNotes> {
  const { manifest, people } = session;
  const firsts = manifest.frames.filter(({ occurrence }) => occurrence === 1);
  const notes: PhotoNotes[] = [];
  for (const frame of firsts) {
    await breathe(signal);
    const measured = people.photos.get(frame.photo.value);
    if (measured && measured.people.length > 0 && canBeJudged(frame))
      notes.push(notesOfPhoto(session, frame, measured));
  }
  const title = manifest.session?.value;
  return { ...(title !== undefined && { title }), photos: firsts.length, notes };
}

function notesOfPhoto(session: Session, frame: Frame, measured: PhotoPeople): PhotoNotes {
  const levelling = levellingOf(frame, measured);
  const shot = sceneAt(frame, measured, 0);
  const degrees = levelling !== undefined && Math.abs(levelling) >= LEAST_LEAN ? levelling : 0;
  const level = degrees === 0 ? shot : sceneAt(frame, measured, degrees);
  const feet = degrees === 0 ? undefined : feetAfter(shot, level);
  const heads = shot.counted.flatMap(({ headTop }) => headTop?.y ?? []);
  const seen = shot.counted.map((figure) => ({ figure, hands: figure.hands.filter((hand) => isInPhoto(hand, shot)) }));
  const steps = shot.counted.flatMap((figure) => isFootBeforeFoot(figure) ?? []);
  const clean = cleanLength(session, frame, shot, level);
  return {
    photo: frame.photo.value,
    ...(levelling !== undefined && { levelling }),
    ...(feet && { feet }),
    ...(heads.length > 0 && { overHead: (Math.min(...heads) / shot.photo.height) * 100 }),
    ...(seen.some(({ hands }) => hands.length > 0) && {
      hands: [...new Set(seen.flatMap(({ figure, hands }) => handsInTheWay(figure, shownHands(hands, frame))))],
    }),
    ...(steps.length > 0 && { footBeforeFoot: steps.some(Boolean) }),
    ...(clean && { clean }),
  };
}

/** Whether the middle of it is: a hand that is reckoned from its arm may lie beyond the photo. */
function isInPhoto({ box }: Region, { photo }: Scene): boolean {
  const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  return x > 0 && x < photo.width && y > 0 && y < photo.height;
}

/** Without those that the frame allows to be cut: a hand in a pocket or under an arm is in no crop's way. */
function shownHands(hands: readonly Region[], { allow }: Frame): readonly Region[] {
  return hands.filter(
    ({ side }) => ![...allow.keys()].some((key) => isCoveredBy(key, { rule: 'hand-cut', joint: `${side}_hand` })),
  );
}

/** What somebody wrote; else what was measured, where that is sure enough and no tilt on purpose. */
function levellingOf({ straighten }: Frame, { tilt }: PhotoPeople): number | undefined {
  if (straighten) return Math.abs(straighten.value) <= MOST_LEAN ? straighten.value : undefined;
  if (!tilt || tilt.confidence < LEAST_CONFIDENCE || Math.abs(tilt.degrees) > MOST_LEAN) return undefined;
  return tilt.degrees;
}

/** The photo as shot, or levelled and otherwise whole. */
function sceneAt(frame: Frame, { size, people }: PhotoPeople, degrees: number): Scene {
  return sceneOf({
    photo: size,
    degrees,
    crop: effectiveEdges(defaultCrop(size, degrees), size, degrees),
    shape: size.width / size.height,
    composition: 'free',
    askedLength: undefined,
    people,
    subjects: frame.subjects?.value,
  });
}

function feetAfter(shot: Scene, level: Scene): FeetAfterLevelling | undefined {
  const areSeen = shot.counted.length > 0 && shot.counted.every(({ feet }) => feet.length > 0);
  const { width, height } = shot.photo;
  const overHead = Math.min(LEAST_OVER_HEAD, highestHead(shot) / height);
  const underFeet = Math.min(UNDER_FEET * Math.min(width, height), height - lowestSole(shot));
  if (!areSeen || overHead < 0 || underFeet < 0) return undefined;
  // What levelling cannot take is not its fault.
  if (missingUnder(shot, overHead, underFeet) !== 0) return undefined;
  const missing = missingUnder(level, overHead, underFeet);
  return missing === undefined ? {} : { missing };
}

/** Percent of the photo's height that a crop with these heads and sides cannot reach of what the feet need. */
function missingUnder(scene: Scene, overHead: number, underFeet: number): number | undefined {
  const { photo, degrees, counted } = scene;
  const held = {
    left: Math.min(...counted.map(({ extent }) => extent.left)),
    right: Math.max(...counted.map(({ extent }) => extent.right)),
    top: highestHead(scene),
    overHead,
  };
  const wanted = lowestSole(scene) + underFeet;
  const reach = lowestReach(photo, degrees, held, wanted);
  return reach === undefined ? undefined : ((wanted - reach) / photo.height) * 100;
}

function highestHead({ counted }: Scene): number {
  return Math.min(...counted.map(({ headTop, lines }) => headTop?.y ?? lines.headTop));
}

function lowestSole({ counted }: Scene): number {
  return Math.max(...counted.map(({ lines }) => lines.sole));
}

function cleanLength(session: Session, frame: Frame, shot: Scene, level: Scene): PhotoNotes['clean'] {
  if (!shot.tallest) return undefined;
  const asShot = foundLength(shot.tallest, shot.crop);
  const closer = tighterThan(asShot);
  const allow = [...frame.allow.keys()];
  const isClean = (length: typeof asShot): boolean =>
    nearestCrop(level, session.configuration.crops, { allow, tightest: length, widest: length })?.broken.length === 0;
  if (isClean(asShot)) return 'as-shot';
  return closer && isClean(closer) ? 'one-closer' : 'further';
}
