import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { PhotoPeople } from '../../../src/people/person.ts';
import { decodePhoto } from '../../../src/photos/decode.ts';
import { Pyramid } from '../../../src/vision/image/pyramid.ts';
import { findLevel } from '../../../src/vision/lines/level.ts';
import { LONG_EDGE, measurePixels } from '../../../src/vision/measure.ts';
import type { ModelSet } from '../../../src/vision/models/model-set.ts';
import { median } from './median.ts';
import type { LabelledPhoto } from './labels.ts';
import { DEMO_PHOTOS } from './shared-folder.ts';
import { turnedPicture, type PeopledPicture } from './turned.ts';

/** From this confidence on the people file has an answer (its format says so). */
export const ANSWER = 0.5;

/** What is known of the camera of a rendered photo (the folder's README). */
export interface CameraTruth {
  /** The `straighten` value that levels the photo: the negative of the camera's roll. */
  readonly degrees: number;
  /** Of the sea's horizon at the photo's middle, as a fraction of its height. */
  readonly horizon?: number;
}

export interface TiltCase {
  readonly photo: string;
  /** Degrees the photo was turned by before it was measured. */
  readonly turn: number;
  readonly level: Pick<PhotoPeople, 'tilt' | 'horizon'>;
  /** What levels it; unknown where neither a label nor the unturned photo tells. */
  readonly truth?: number;
  /** What another method says, where it was asked. */
  readonly other?: number;
}

/** By photo name. */
export function cameraTruths(folder = DEMO_PHOTOS): Map<string, CameraTruth> {
  const { images } = JSON.parse(readFileSync(join(folder, 'labels.json'), 'utf8')) as {
    images: { file_name: string; height: number; camera_roll_deg: number; horizon_y: number[] | null }[];
  };
  return new Map(
    images.map((image) => [
      image.file_name,
      {
        degrees: -image.camera_roll_deg,
        ...(image.horizon_y && { horizon: image.horizon_y[1]! / image.height }),
      },
    ]),
  );
}

/** Whether thresholds may be chosen on a photo, by its name: the other half only reports. */
export function isForTuning(photo: string): boolean {
  return createHash('sha256').update(photo).digest()[0]! % 2 === 1;
}

/** Pictures are turned at this size, which is quicker and still more than lines are looked for in. */
const TURNED_EDGE = 1000;

/** A photo with its people: they are measured once, and turned with it. */
export async function peopled(models: ModelSet, { path }: LabelledPhoto): Promise<PeopledPicture> {
  const people = await measurePixels((await decodePhoto(path, LONG_EDGE)).pixels, models);
  return { people, pixels: (await decodePhoto(path, TURNED_EDGE)).pixels };
}

/**
 * A photo turned by each of some angles, and how it is said to lean. Without a label the answer for the unturned photo is
 * the truth, so that only the difference is tested.
 */
export function turnedCases(
  photo: string,
  picture: PeopledPicture,
  turns: readonly number[],
  { label, other }: { readonly label?: number | undefined; readonly other?: (picture: Pyramid) => number } = {},
): TiltCase[] {
  const unturned = findLevel(new Pyramid(picture.pixels), picture.people);
  const start = label ?? answerOf(unturned);
  const cases = turns.map((turn): TiltCase => {
    const turned = turnedPicture(picture, turn);
    const pyramid = new Pyramid(turned.pixels);
    return {
      photo,
      turn,
      level: findLevel(pyramid, turned.people),
      ...(start !== undefined && { truth: start - turn }),
      ...(other && { other: other(pyramid) }),
    };
  });
  return label === undefined ? cases.filter(({ turn }) => turn !== 0) : cases;
}

export function answerOf({ tilt }: Pick<PhotoPeople, 'tilt'>): number | undefined {
  return tilt !== undefined && tilt.confidence >= ANSWER ? tilt.degrees : undefined;
}

export interface TiltSummary {
  readonly cases: number;
  /** Shares of the cases, and of the answers, 0 to 1. */
  readonly answered: number;
  readonly median: number;
  readonly offByHalf: number;
  readonly offByOne: number;
  readonly worst: number;
}

/** How the answers differ from the truth; what has no truth counts as not answered. */
export function summaryOf(
  cases: readonly TiltCase[],
  answer: (one: TiltCase) => number | undefined = ({ level }) => answerOf(level),
): TiltSummary {
  const errors = cases.flatMap((one) => {
    const degrees = answer(one);
    return degrees === undefined || one.truth === undefined ? [] : [Math.abs(degrees - one.truth)];
  });
  const beyond = (limit: number): number => errors.filter((error) => error > limit).length / Math.max(1, errors.length);
  return {
    cases: cases.length,
    answered: errors.length / Math.max(1, cases.length),
    median: median(errors),
    offByHalf: beyond(0.5),
    offByOne: beyond(1),
    worst: Math.max(0, ...errors),
  };
}
