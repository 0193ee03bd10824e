import type { Point } from '../geometry/shapes.ts';
import type { BodyLines } from './body-lines.ts';
import type { Figure } from './figure.ts';
import type { Places } from './person.ts';
import { SIDES, type Side } from './points.ts';
import { insideAt, type Stretch } from './stretches.ts';

/** What an upright body measures across at one height; pixels of the turned picture. */
export interface Slice {
  readonly y: number;
  /** Where trunk, legs or clothing begin and end; arms that hang beside them are left out. */
  readonly left: number;
  readonly right: number;
  /** Without the gaps between, such as between the legs. */
  readonly width: number;
  /**
   * Which arms lie beside the body here and which over it: only heights with the same can be compared, for where an arm
   * begins or ends the width steps. Undefined where an arm stands off the body and an outline of few corners may bridge the gap.
   */
  readonly arms: number | undefined;
}

/** A body is measured at so many heights to its own height. */
const SLICES = 64;
/** Half of an arm in its sleeve, as a share of the person's height (measured on our own figures). */
const HALF_ARM = 0.024;
/** An arm further than this beside the line from shoulder to hip stands off the body, as a share of the height. */
const STANDS_OFF = 0.07;
/** What each arm adds to `arms`. */
const OVER = 1;
const BESIDE = 3;
/** Above this share of the way from the shoulders to the hips a body is as wide as its shoulders. */
const BELOW_ARMPITS = 0.3;

/** What the profile is taken from: a figure has it all. */
export type Profiled = Pick<Figure, 'points' | 'lines' | 'height' | 'outline' | 'gaps'>;

/** Only heights within reach of one are measured, in pixels. */
export interface Window {
  readonly middle: number;
  readonly reach: number;
}

/**
 * How wide a body is from under the arms to the ankles, from its outline, every 64th of its height. Empty without an
 * outline, or where shoulders and hips were not found.
 */
export function widthProfile(figure: Profiled, window?: Window): Slice[] {
  const { outline, gaps, lines, height } = figure;
  if (!outline || outline.length < 3) return [];
  const heights = profileHeights(lines, height, window);
  return heights.length > 0 ? profileOf(figure, insideAt(outline, heights, gaps)) : [];
}

/** The heights at which a body is measured, from the top. */
export function profileHeights({ shoulder, hip, ankle }: BodyLines, height: number, window?: Window): number[] {
  const step = height / SLICES;
  const first = shoulder + BELOW_ARMPITS * (hip - shoulder);
  const count = step > 0 ? Math.floor((ankle - first) / step) : 0;
  const heights: number[] = [];
  for (let index = 0; index < count; index++) {
    const y = first + index * step;
    if (!window || Math.abs(y - window.middle) <= window.reach) heights.push(y);
  }
  return heights;
}

/** The profile from the stretches of each height that lie within somebody. */
export function profileOf(
  { points, height }: Pick<Profiled, 'points' | 'height'>,
  heights: ReadonlyMap<number, readonly Stretch[]>,
): Slice[] {
  const axes = axesOf(points);
  if (!axes) return [];
  const arms = SIDES.map((side) => ({ line: armOf(points, side), flank: flankOf(points, side) }));
  const halfArm = HALF_ARM * height;
  const slices: Slice[] = [];
  for (const [y, stretches] of heights) {
    const middles: number[] = [];
    let first = Infinity;
    let last = -Infinity;
    for (const axis of axes) {
      const x = crossingOf(axis, y);
      if (x === undefined) continue;
      middles.push(x);
      first = Math.min(first, x);
      last = Math.max(last, x);
    }
    if (middles.length === 0) continue;
    let left = Infinity;
    let right = -Infinity;
    let width = 0;
    let armsHere = 0;
    let isSure = true;
    for (const stretch of stretches) {
      if (!middles.some((x) => x >= stretch[0] && x <= stretch[1])) continue;
      let [from, to] = stretch;
      for (const { line, flank } of arms) {
        const x = crossingOf(line, y);
        if (x === undefined || x < stretch[0] - halfArm || x > stretch[1] + halfArm) continue;
        const side = crossingOf(flank, y);
        if (side !== undefined && Math.abs(x - side) > STANDS_OFF * height) isSure = false;
        // The arm makes the side of the body here: the body ends where it begins.
        const isLeft = x < first - halfArm && x - from < 2 * halfArm && x >= from;
        const isRight = x > last + halfArm && to - x < 2 * halfArm && x <= to;
        if (isLeft) from = Math.min(first, x + halfArm);
        if (isRight) to = Math.max(last, x - halfArm);
        armsHere += isLeft || isRight ? BESIDE : OVER;
      }
      left = Math.min(left, from);
      right = Math.max(right, to);
      width += to - from;
    }
    if (width > 0) slices.push({ y, left, right, width, arms: isSure ? armsHere : undefined });
  }
  return slices;
}

/** The profile as one closed line down its left side and up its right one, for drawing. */
export function profilePolygon(profile: readonly Slice[]): Point[] {
  const left = profile.map(({ left: x, y }) => ({ x, y }));
  const right = profile.map(({ right: x, y }) => ({ x, y })).reverse();
  return [...left, ...right];
}

/** Lines down the body that its trunk and legs lie around; undefined without shoulders and hips. */
function axesOf(points: Places): Point[][] | undefined {
  const hips = SIDES.flatMap((side) => points[`${side}_hip`] ?? []);
  const shoulders = SIDES.flatMap((side) => points[`${side}_shoulder`] ?? []);
  if (hips.length === 0 || shoulders.length === 0) return undefined;
  const mean = (all: readonly Point[]): Point => ({
    x: all.reduce((sum, { x }) => sum + x, 0) / all.length,
    y: all.reduce((sum, { y }) => sum + y, 0) / all.length,
  });
  const legs = SIDES.flatMap((side): Point[][] => {
    const [hip, knee, ankle] = [points[`${side}_hip`], points[`${side}_knee`], points[`${side}_ankle`]];
    return hip && knee ? [[hip, knee, ...(ankle ? [ankle] : [])]] : [];
  });
  const hip = mean(hips);
  // Under a dress the legs are not found: it hangs down from the hips.
  const hanging = [hip, { x: hip.x, y: hip.y + 1e6 }];
  return [[mean(shoulders), hip], ...(legs.length > 0 ? legs : [hanging])];
}

/** The side of the trunk, from shoulder to hip. */
function flankOf(points: Places, side: Side): Point[] {
  const [shoulder, hip] = [points[`${side}_shoulder`], points[`${side}_hip`]];
  return shoulder && hip ? [shoulder, hip] : [];
}

/** Beyond the wrist the hand goes on for this share of the forearm. */
const HAND = 0.6;

function armOf(points: Places, side: Side): Point[] {
  const [shoulder, elbow, wrist] = [points[`${side}_shoulder`], points[`${side}_elbow`], points[`${side}_wrist`]];
  if (!elbow) return [];
  const tip = wrist && { x: wrist.x + HAND * (wrist.x - elbow.x), y: wrist.y + HAND * (wrist.y - elbow.y) };
  return [...(shoulder ? [shoulder] : []), elbow, ...(wrist && tip ? [wrist, tip] : [])];
}

/** Where a line through these points crosses a height; the last of several crossings. */
function crossingOf(line: readonly Point[], y: number): number | undefined {
  let x: number | undefined;
  for (let index = 1; index < line.length; index++) {
    const a = line[index - 1]!;
    const b = line[index]!;
    if ((a.y <= y && y <= b.y) || (b.y <= y && y <= a.y)) {
      x = a.y === b.y ? (a.x + b.x) / 2 : a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x);
    }
  }
  return x;
}
