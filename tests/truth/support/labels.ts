import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Point, Size } from '../../../src/geometry/shapes.ts';
import { BODY_POINTS, FINGERS, FOOT_POINTS, SIDES, handPoints, type PointName } from '../../../src/people/points.ts';
import { DEMO_PHOTOS, LABELLED_PHOTOS } from './shared-folder.ts';

/** Pixels of the photo. `isVisible`: seen, not only known to be there. */
export interface LabelledPoint extends Point {
  readonly isVisible: boolean;
}

export interface LabelledPerson {
  /** From 1, in the order of the labels; the rendered photos number their figures themselves. */
  readonly id: number;
  /** Only points inside the photo. */
  readonly points: ReadonlyMap<PointName, LabelledPoint>;
  /** left, top, width, height. */
  readonly box: readonly [number, number, number, number];
  readonly area: number;
  readonly headTop?: Point;
  /** The same where the frame cuts the head off. */
  readonly headTopEverywhere?: Point;
  /** Points beyond the frame too, where the labels know them. */
  readonly everywhere: ReadonlyMap<PointName, Point>;
  /** Run lengths of pixels that are not and that are the person's, in columns from the left (COCO's RLE). */
  readonly maskRuns?: readonly number[];
}

export interface LabelledPhoto {
  readonly name: string;
  readonly path: string;
  readonly size: Size;
  readonly people: readonly LabelledPerson[];
}

interface CocoFile<Image, Annotation> {
  readonly images: readonly (Image & { id: number; file_name: string; width: number; height: number })[];
  readonly annotations: readonly (Annotation & {
    image_id: number;
    keypoints: number[];
    bbox: [number, number, number, number];
    area: number;
  })[];
}

type Triple = [number, number, number];

interface WholeBodyAnnotation {
  readonly id: number;
  readonly num_keypoints: number;
  readonly foot_kpts: number[];
  readonly lefthand_kpts: number[];
  readonly righthand_kpts: number[];
}

/** The longer side of the labelled box: what "percent of the person's height" means here. */
export function sizeOfPerson(person: LabelledPerson): number {
  return Math.max(person.box[2], person.box[3]);
}

/** Four COCO photographs, their joints, feet and hands as people labelled them (see the folder's README). */
export function cocoPhotos(folder = LABELLED_PHOTOS): LabelledPhoto[] {
  const file = readJson(join(folder, 'test_coco_wholebody.json')) as CocoFile<object, WholeBodyAnnotation>;
  return file.images.map((image) => ({
    name: image.file_name,
    path: join(folder, image.file_name),
    size: { width: image.width, height: image.height },
    people: file.annotations
      .filter((annotation) => annotation.image_id === image.id && annotation.num_keypoints > 0)
      .map((annotation, index) => {
        const points = new Map<PointName, LabelledPoint>();
        addTriples(points, BODY_POINTS, annotation.keypoints);
        addTriples(points, FOOT_POINTS, annotation.foot_kpts);
        addTriples(points, handPoints('left'), annotation.lefthand_kpts);
        addTriples(points, handPoints('right'), annotation.righthand_kpts);
        return { id: index + 1, points, everywhere: points, box: annotation.bbox, area: annotation.area };
      }),
  }));
}

interface DemoAnnotation {
  readonly person_index: number;
  readonly segmentation: { readonly counts: number[] };
  readonly keypoints_projected: [number, number][];
  readonly foot_keypoints: number[];
  readonly foot_projected: [number, number][];
  readonly hands_projected: Record<'left' | 'right', Record<string, Triple>>;
  readonly head_top: [number, number];
  readonly head_top_visible: [number, number] | null;
}

/** Our own rendered photos with exact labels (see the folder's README). */
export function demoPhotos(folder = DEMO_PHOTOS): LabelledPhoto[] {
  const file = readJson(join(folder, 'labels.json')) as CocoFile<object, DemoAnnotation>;
  return file.images.map((image) => ({
    name: image.file_name,
    path: join(folder, image.file_name),
    size: { width: image.width, height: image.height },
    people: file.annotations.filter((annotation) => annotation.image_id === image.id).map(demoPerson),
  }));
}

function demoPerson(annotation: CocoFile<object, DemoAnnotation>['annotations'][number]): LabelledPerson {
  const points = new Map<PointName, LabelledPoint>();
  const everywhere = new Map<PointName, Point>();
  addTriples(points, BODY_POINTS, annotation.keypoints);
  addTriples(points, FOOT_POINTS, annotation.foot_keypoints);
  BODY_POINTS.forEach((name, k) => everywhere.set(name, pointOf(annotation.keypoints_projected[k]!)));
  FOOT_POINTS.forEach((name, k) => everywhere.set(name, pointOf(annotation.foot_projected[k]!)));
  for (const side of SIDES) {
    for (const [name, [x, y, visibility]] of namedHand(side, annotation.hands_projected[side])) {
      everywhere.set(name, { x, y });
      if (visibility > 0) points.set(name, { x, y, isVisible: visibility === 2 });
    }
  }
  const top = annotation.head_top_visible;
  return {
    id: annotation.person_index,
    points,
    everywhere,
    box: annotation.bbox,
    area: annotation.area,
    maskRuns: annotation.segmentation.counts,
    ...(top && { headTop: pointOf(top) }),
    headTopEverywhere: pointOf(top ?? annotation.head_top),
  };
}

/** The labels name knuckle and tip of each finger in their own words. */
function namedHand(side: 'left' | 'right', hand: Record<string, Triple>): [PointName, Triple][] {
  const words = {
    thumb: 'thumb',
    forefinger: 'index',
    middle_finger: 'middle',
    ring_finger: 'ring',
    pinky_finger: 'pinky',
  };
  const fingers = FINGERS.flatMap((finger): [PointName, Triple][] => [
    // A thumb's first knuckle is its second point in COCO-WholeBody, whose first is at the wrist.
    [`${side}_${finger}${finger === 'thumb' ? 2 : 1}`, hand[`${words[finger]}_mcp`]!],
    [`${side}_${finger}4`, hand[`${words[finger]}_tip`]!],
  ]);
  return [[`${side}_hand_root`, hand['wrist']!], ...fingers];
}

function addTriples(to: Map<PointName, LabelledPoint>, names: readonly PointName[], triples: readonly number[]): void {
  names.forEach((name, k) => {
    const [x, y, visibility] = triples.slice(3 * k, 3 * k + 3);
    if (visibility! > 0) to.set(name, { x: x!, y: y!, isVisible: visibility! >= 2 });
  });
}

function pointOf([x, y]: readonly [number, number]): Point {
  return { x, y };
}

function readJson(path: string): unknown {
  return JSON.parse(readFileSync(path, 'utf8'));
}
