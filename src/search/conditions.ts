import { insidePhoto, largestCentred } from '../geometry/crop.ts';
import type { HalfSpace } from '../geometry/half-space.ts';
import { atLeast, atMost, excess } from '../geometry/half-space.ts';
import { boxAround } from '../geometry/points.ts';
import type { Edges } from '../geometry/shapes.ts';
import { heightOf, shortSideOf, widthOf } from '../geometry/shapes.ts';
import type { Figure } from '../people/figure.ts';
import { headCutFrom, lengthSpans } from '../people/length-spans.ts';
import { CROP_HEIGHT, CROP_WIDTH, minus, notPositive, pixels } from '../rules/limits.ts';
import type { Scene } from '../rules/scene.ts';
import type { SearchOptions } from './options.ts';

/** Why a condition is there, for saying what stands in the way. */
export type Ground = 'photo' | 'shape' | 'face' | 'size' | 'length' | 'direction';

/** What every crop must meet, whatever it costs. In pixels of the turned picture. */
export interface Condition {
  readonly halfSpace: HalfSpace;
  readonly ground: Ground;
  /** Id of the person whose face it is. */
  readonly person?: number;
}

/** A crop with a shorter side than this is too small to print, unless the present one is (DESIGN, The search). */
export const SHORT_SIDE = 600;
/** Of a photo that is small itself, this share of its short side is enough. */
const SHARE_OF_SMALL_PHOTO = 0.35;
/** What a length's upper end is left open by: a lower edge on it already makes the wider length. */
const OPEN_END = 0.01;

/** The linear conditions on a crop of this scene. A shape that was asked for is none of them: it holds exactly. */
export function conditionsOf(scene: Scene, options: SearchOptions): Condition[] {
  const of = (ground: Ground, halfSpaces: readonly HalfSpace[]): Condition[] =>
    halfSpaces.map((halfSpace) => ({ halfSpace, ground }));
  return [
    ...of('photo', insidePhoto(scene.photo, scene.degrees)),
    ...of('shape', orientation(scene)),
    ...facesToHold(scene).flatMap((figure) => holdsFace(scene, figure)),
    ...of('size', minimumSize(scene, options)),
    ...of('length', lengthRange(scene, options)),
    ...of('direction', inDirection(scene.crop, options.direction)),
  ];
}

/** A crop of free shape stays upright or lying as it is, also when it is written. */
function orientation(scene: Scene): HalfSpace[] {
  if (scene.shape !== undefined) return [];
  const rounding = 2 * roundingStep(Math.max(scene.photo.width, scene.photo.height));
  const longer = scene.upright ? minus(CROP_HEIGHT, CROP_WIDTH) : minus(CROP_WIDTH, CROP_HEIGHT);
  return [notPositive(minus(pixels(rounding), longer))];
}

/** Nobody's face is dropped. Where none is shown yet, all come in, or the tallest's where a crop cannot hold them all. */
export function facesToHold(scene: Scene): Figure[] {
  const shown = scene.counted.filter((figure) => isFaceShown(scene, figure));
  if (shown.length > 0) return shown;
  const withFace = scene.counted.filter(({ face }) => face !== undefined);
  if (withFace.length === 0) return [];
  const together = boxAround(
    withFace.flatMap(({ face }) => [
      { x: face!.box.left, y: face!.box.top },
      { x: face!.box.right, y: face!.box.bottom },
    ]),
  );
  const largest = largestCentred(scene.photo, scene.degrees, scene.shape ?? scene.photo.width / scene.photo.height);
  const fits = widthOf(together) <= widthOf(largest) && heightOf(together) <= heightOf(largest);
  if (fits) return withFace;
  return [withFace.reduce((tallest, figure) => (figure.height > tallest.height ? figure : tallest))];
}

/** Whether a viewer of the present crop sees that face: its middle, or eyes and nose. */
function isFaceShown({ facing, crop }: Scene, figure: Figure): boolean {
  if (facing.includes(figure)) return true;
  if (!figure.face) return false;
  const { nose, left_eye: leftEye, right_eye: rightEye } = figure.points;
  return [nose, leftEye, rightEye].every(
    (point) =>
      !point || (point.x >= crop.left && point.x <= crop.right && point.y >= crop.top && point.y <= crop.bottom),
  );
}

function holdsFace(scene: Scene, figure: Figure): Condition[] {
  if (!figure.face) return [];
  const box = withinPhoto(scene, figure.face.box);
  if (!box) return [];
  const halfSpaces = [
    atMost('left', box.left),
    atMost('top', box.top),
    atLeast('right', box.right),
    atLeast('bottom', box.bottom),
  ];
  return halfSpaces.map((halfSpace) => ({ halfSpace, ground: 'face', person: figure.id }));
}

/** The part of a face's box that the photo shows: clipped, or drawn in to its middle where the photo is turned. */
function withinPhoto(scene: Scene, box: Edges): Edges | undefined {
  const { photo } = scene;
  if (scene.degrees === 0) {
    const clipped = {
      left: Math.max(0, box.left),
      top: Math.max(0, box.top),
      right: Math.min(photo.width, box.right),
      bottom: Math.min(photo.height, box.bottom),
    };
    return clipped.left < clipped.right && clipped.top < clipped.bottom ? clipped : undefined;
  }
  const x = (box.left + box.right) / 2;
  const y = (box.top + box.bottom) / 2;
  const middle = { left: x, top: y, right: x, bottom: y };
  let share = 1;
  for (const condition of insidePhoto(photo, scene.degrees)) {
    const room = -excess(condition, middle);
    const need = excess(condition, box) + room;
    if (need > 0) share = Math.min(share, room / need);
  }
  if (share <= 0) return undefined;
  const width = (share * widthOf(box)) / 2;
  const height = (share * heightOf(box)) / 2;
  return { left: x - width, top: y - height, right: x + width, bottom: y + height };
}

function minimumSize(scene: Scene, options: SearchOptions): HalfSpace[] {
  const { width, height } = scene.photo;
  const least = Math.min(SHORT_SIDE, SHARE_OF_SMALL_PHOTO * Math.min(width, height), shortSideOf(scene.crop));
  const side = options.minimumShortSide ?? least;
  return [notPositive(minus(pixels(side), CROP_WIDTH)), notPositive(minus(pixels(side), CROP_HEIGHT))];
}

function lengthRange(scene: Scene, options: SearchOptions): HalfSpace[] {
  if (!scene.tallest) return [];
  const spans = lengthSpans(scene.tallest);
  const from = spans.find(({ length }) => length === options.tightest)?.from ?? -Infinity;
  const to = spans.find(({ length }) => length === options.widest)?.to ?? Infinity;
  const halfSpaces: HalfSpace[] = [];
  // Rounding takes a lower edge up, and an upper one down, by as much as one step of the written crop.
  const step = roundingStep(scene.photo.height);
  if (from > -Infinity) halfSpaces.push(atLeast('bottom', from + step));
  const cut = headCutFrom(scene.tallest) - 2 * step;
  // A head cut on purpose makes a close-up of head and shoulders, where the photo has the head at all.
  if (options.tightest === 'head-and-shoulders' && cut > 0) halfSpaces.push(atMost('top', cut));
  if (to < Infinity) halfSpaces.push(atMost('bottom', to - OPEN_END));
  return halfSpaces;
}

function inDirection(crop: Edges, direction: SearchOptions['direction']): HalfSpace[] {
  switch (direction) {
    case 'tighter':
      return [
        atLeast('left', crop.left),
        atLeast('top', crop.top),
        atMost('right', crop.right),
        atMost('bottom', crop.bottom),
      ];
    case 'wider':
      return [
        notPositive(minus(pixels(widthOf(crop)), CROP_WIDTH)),
        notPositive(minus(pixels(heightOf(crop)), CROP_HEIGHT)),
      ];
    case undefined:
      return [];
  }
}

/** How far writing a crop with four decimals can move an edge, in pixels: always inward. */
export function roundingStep(side: number): number {
  return side / 10_000;
}
