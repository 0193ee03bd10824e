import type { Point, Size } from '../../geometry/shapes.ts';
import type { MeasuredPoint, Person } from '../person.ts';
import type { PointName } from '../points.ts';
import { SIDES } from '../points.ts';
import { PROPORTIONS } from '../proportions.ts';

/** The photo of a test: 4000 × 6000 pixels, upright. */
export const PHOTO: Size = { width: 4000, height: 6000 };

/** Half widths of a standing figure as shares of its height (drawn by eye; only the tests stand on them). */
const HALF_WIDTH = {
  eye: 0.018,
  shoulder: 0.1,
  elbow: 0.13,
  wrist: 0.14,
  hip: 0.05,
  knee: 0.045,
  ankle: 0.045,
} as const;

type Arms = 'down' | 'out' | 'akimbo';

export interface Standing {
  readonly id?: number;
  /** The measure of the proportions, in pixels; from head top to soles the figure is 1.016 times as high. */
  readonly height?: number;
  /** Where the middle of the body stands, in pixels from the left. */
  readonly x?: number;
  /** Where the highest hair is, in pixels from the top. */
  readonly headTop?: number;
  /** `akimbo`: hands on the hips, elbows out. */
  readonly arms?: Arms;
  /** Adds fingers, toes or an outline to the seventeen points. */
  readonly fingers?: boolean;
  readonly toes?: boolean;
  readonly outlined?: boolean;
  readonly source?: Person['source'];
  /** Of every point; single points differ by `sureness`. */
  readonly confidence?: number;
  readonly sureness?: Readonly<Partial<Record<PointName | 'head_top', number>>>;
  readonly without?: readonly (PointName | 'head_top')[];
  readonly photo?: Size;
}

/**
 * Somebody who stands straight and looks into the camera, as the people file would have them. With the defaults, in
 * pixels: head top 1500, eyes 1820, shoulders 2292, elbows 3036, hips 3444, wrists 3620, knees 4424, ankles 5408,
 * soles 5564; the middle of the body at 2000.
 */
export function standing(options: Standing = {}): Person {
  const { id = 1, height = 4000, x = 2000, headTop = 1500, arms = 'down', photo = PHOTO } = options;
  const { confidence = 0.95, sureness = {}, without = [], source = 'model' } = options;
  const body = { height, x, headTop };
  const named: [PointName | 'head_top', Point][] = [
    ['head_top', { x, y: headTop }],
    ...bodyPlaces(body, arms),
    ...(options.fingers ? fingerPlaces(body) : []),
    ...(options.toes ? toePlaces(body) : []),
  ];
  const points: Partial<Record<PointName, MeasuredPoint>> = {};
  let head: MeasuredPoint | undefined;
  for (const [name, place] of named) {
    if (without.includes(name)) continue;
    const point = {
      x: place.x / photo.width,
      y: place.y / photo.height,
      confidence: sureness[name] ?? confidence,
    };
    if (name === 'head_top') head = point;
    else points[name] = point;
  }
  return {
    id,
    source,
    box: [
      (x - 0.17 * height) / photo.width,
      headTop / photo.height,
      (0.34 * height) / photo.width,
      (1.016 * height) / photo.height,
    ],
    points,
    ...(head && { headTop: head }),
    ...(options.outlined && {
      outline: outlineOf(body).map((corner) => ({ x: corner.x / photo.width, y: corner.y / photo.height })),
    }),
  };
}

interface Body {
  readonly height: number;
  readonly x: number;
  readonly headTop: number;
}

/** Heights in pixels from the top of the photo. */
function levels({ height, headTop }: Body) {
  const down = (from: number, part: keyof typeof PROPORTIONS) => from + PROPORTIONS[part] * height;
  const eyes = down(headTop, 'eyesToHeadTop');
  const shoulder = down(eyes, 'eyesToShoulder');
  const elbow = down(shoulder, 'shoulderToElbow');
  const wrist = down(elbow, 'elbowToWrist');
  const hip = down(shoulder, 'shoulderToHip');
  const knee = down(hip, 'hipToKnee');
  const ankle = down(knee, 'kneeToAnkle');
  const fingertip = down(wrist, 'wristToFingertip');
  return { eyes, shoulder, elbow, wrist, fingertip, hip, knee, ankle, sole: down(ankle, 'ankleToSole') };
}

/** A person who faces the camera has their left at the viewer's right. */
function outwards(side: (typeof SIDES)[number], { x, height }: Body, share: number): number {
  return x + (side === 'left' ? 1 : -1) * share * height;
}

function bodyPlaces(body: Body, arms: Arms): [PointName, Point][] {
  const level = levels(body);
  const nose: [PointName, Point] = ['nose', { x: body.x, y: level.eyes + 0.03 * body.height }];
  return SIDES.reduce<[PointName, Point][]>(
    (places, side) => {
      const at = (share: number, y: number): Point => ({ x: outwards(side, body, share), y });
      const reach = HALF_WIDTH.shoulder + PROPORTIONS.shoulderToElbow;
      const elbow: Record<Arms, Point> = {
        down: at(HALF_WIDTH.elbow, level.elbow),
        out: at(reach, level.shoulder),
        akimbo: at(2.1 * HALF_WIDTH.shoulder, (level.shoulder + level.hip) / 2),
      };
      const wrist: Record<Arms, Point> = {
        down: at(HALF_WIDTH.wrist, level.wrist),
        out: at(reach + PROPORTIONS.elbowToWrist, level.shoulder),
        akimbo: at(1.2 * HALF_WIDTH.shoulder, level.hip),
      };
      places.push(
        [`${side}_eye`, at(HALF_WIDTH.eye, level.eyes)],
        [`${side}_shoulder`, at(HALF_WIDTH.shoulder, level.shoulder)],
        [`${side}_elbow`, elbow[arms]],
        [`${side}_wrist`, wrist[arms]],
        [`${side}_hip`, at(HALF_WIDTH.hip, level.hip)],
        [`${side}_knee`, at(HALF_WIDTH.knee, level.knee)],
        [`${side}_ankle`, at(HALF_WIDTH.ankle, level.ankle)],
      );
      return places;
    },
    [nose],
  );
}

/** A hand that hangs: its root at the wrist, the middle finger's tip lowest. */
function fingerPlaces(body: Body): [PointName, Point][] {
  const level = levels(body);
  return SIDES.flatMap((side): [PointName, Point][] => {
    const at = (share: number, y: number): Point => ({ x: outwards(side, body, share), y });
    const knuckles = (level.wrist + level.fingertip) / 2;
    return [
      [`${side}_hand_root`, at(HALF_WIDTH.wrist, level.wrist)],
      [`${side}_thumb4`, at(HALF_WIDTH.wrist - 0.02, knuckles)],
      [`${side}_middle_finger1`, at(HALF_WIDTH.wrist, knuckles)],
      [`${side}_middle_finger4`, at(HALF_WIDTH.wrist, level.fingertip)],
      [`${side}_pinky_finger4`, at(HALF_WIDTH.wrist + 0.015, knuckles)],
    ];
  });
}

function toePlaces(body: Body): [PointName, Point][] {
  const { sole } = levels(body);
  return SIDES.flatMap((side): [PointName, Point][] => {
    const at = (share: number): Point => ({ x: outwards(side, body, share), y: sole });
    return [
      [`${side}_big_toe`, at(0.05)],
      [`${side}_small_toe`, at(0.07)],
      [`${side}_heel`, at(0.04)],
    ];
  });
}

/** Clockwise from the head's top; hands and feet stand out. */
function outlineOf(body: Body): Point[] {
  const level = levels(body);
  const { height, headTop } = body;
  const half: readonly (readonly [number, number])[] = [
    [0.04, level.eyes],
    [0.03, level.shoulder - 0.03 * height],
    [0.12, level.shoulder],
    [0.15, level.elbow],
    [0.165, level.wrist],
    [0.15, level.fingertip],
    [0.125, level.wrist],
    [0.09, level.shoulder + 0.1 * height],
    [0.085, level.hip],
    [0.07, level.knee],
    [0.06, level.ankle],
    [0.075, level.sole],
    [0.02, level.sole],
    [0.02, level.knee],
  ];
  const left = half.map(([share, y]) => ({ x: body.x + share * height, y }));
  const right = [...half].reverse().map(([share, y]) => ({ x: body.x - share * height, y }));
  return [{ x: body.x, y: headTop }, ...left, { x: body.x, y: level.hip + 0.04 * height }, ...right];
}
