import type { Point, Size } from '../../src/geometry/shapes.ts';
import type { MeasuredPoint, Person } from '../../src/people/person.ts';
import type { PointName, Side } from '../../src/people/points.ts';
import { PROPORTIONS } from '../../src/people/proportions.ts';
import type { Random } from './random.ts';

/** Angles of a pose in degrees from straight down; positive swings away from the body's middle. */
interface Pose {
  readonly lean: number;
  readonly upperArm: Record<Side, number>;
  readonly forearm: Record<Side, number>;
  readonly thigh: Record<Side, number>;
  readonly shin: Record<Side, number>;
}

const SHOULDER_HALF = 0.13;
const HIP_HALF = 0.09;
const HEAD_HALF = 0.045;
const FOOT = 0.08;

function randomPose(random: Random): Pose {
  const side = (low: number, high: number) => ({ left: random.between(low, high), right: random.between(low, high) });
  const raised = random.chance(0.2);
  const seated = random.chance(0.15);
  return {
    lean: random.between(-8, 8),
    upperArm: raised ? side(60, 160) : side(2, 45),
    forearm: raised ? side(90, 175) : side(-60, 40),
    thigh: seated ? side(20, 60) : side(-8, 20),
    shin: seated ? side(-15, 10) : side(-12, 8),
  };
}

/** A plausible body of that height (pixels) with its feet about there, as a people file has it. */
export function randomPerson(random: Random, id: number, photo: Size, foot: Point, height: number): Person {
  const pose = randomPose(random);
  const swing = (from: Point, part: number, degrees: number, outward: number): Point => {
    const radians = (degrees * Math.PI) / 180;
    return {
      x: from.x + outward * Math.sin(radians) * part * height,
      y: from.y + Math.cos(radians) * part * height,
    };
  };
  const legs = PROPORTIONS.hipToKnee + PROPORTIONS.kneeToAnkle + PROPORTIONS.ankleToSole;
  const hipMiddle = { x: foot.x, y: foot.y - legs * height };
  const neck = swing(hipMiddle, PROPORTIONS.shoulderToHip, 180 + pose.lean, 1);
  const eyes = { x: neck.x, y: neck.y - PROPORTIONS.eyesToShoulder * height };
  const places: Partial<Record<PointName, Point>> = {
    nose: { x: eyes.x + random.between(-0.01, 0.01) * height, y: eyes.y + 0.02 * height },
  };
  for (const side of ['left', 'right'] as const) {
    // The person's own left is on the picture's right when they face the camera.
    const outward = side === 'left' ? 1 : -1;
    const shoulder = { x: neck.x + outward * SHOULDER_HALF * height, y: neck.y };
    const hip = { x: hipMiddle.x + outward * HIP_HALF * height, y: hipMiddle.y };
    const elbow = swing(shoulder, PROPORTIONS.shoulderToElbow, pose.upperArm[side], outward);
    const wrist = swing(elbow, PROPORTIONS.elbowToWrist, pose.forearm[side], outward);
    const knee = swing(hip, PROPORTIONS.hipToKnee, pose.thigh[side], outward);
    const ankle = swing(knee, PROPORTIONS.kneeToAnkle, pose.shin[side], outward);
    const sole = ankle.y + PROPORTIONS.ankleToSole * height;
    places[`${side}_eye`] = { x: eyes.x + outward * 0.015 * height, y: eyes.y };
    places[`${side}_ear`] = { x: eyes.x + outward * 0.035 * height, y: eyes.y + 0.01 * height };
    Object.assign(places, {
      [`${side}_shoulder`]: shoulder,
      [`${side}_elbow`]: elbow,
      [`${side}_wrist`]: wrist,
      [`${side}_hip`]: hip,
      [`${side}_knee`]: knee,
      [`${side}_ankle`]: ankle,
      [`${side}_big_toe`]: { x: ankle.x + outward * FOOT * height, y: sole },
      [`${side}_heel`]: { x: ankle.x - outward * 0.02 * height, y: sole - 0.005 * height },
    });
  }
  const headTop = { x: eyes.x, y: eyes.y - PROPORTIONS.eyesToHeadTop * height };
  const outline = random.chance(0.7) ? outlineOf(places, headTop, height) : undefined;
  return personOf(random, id, photo, places, headTop, outline);
}

/** Down the person's left side from the head and up the right one. */
function outlineOf(places: Partial<Record<PointName, Point>>, headTop: Point, height: number): Point[] {
  const down = (side: Side): Point[] => {
    const outward = side === 'left' ? 1 : -1;
    const names = ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle', 'big_toe', 'heel'] as const;
    const along = names.map((name) => {
      const place = places[`${side}_${name}`]!;
      return { x: place.x + outward * 0.025 * height, y: place.y };
    });
    return [{ x: headTop.x + outward * HEAD_HALF * height, y: headTop.y + 0.06 * height }, ...along];
  };
  return [headTop, ...down('left'), ...down('right').reverse()];
}

function personOf(
  random: Random,
  id: number,
  photo: Size,
  places: Partial<Record<PointName, Point>>,
  headTop: Point,
  outline: readonly Point[] | undefined,
): Person {
  const fraction = ({ x, y }: Point): Point => ({ x: x / photo.width, y: y / photo.height });
  const measured = (place: Point): MeasuredPoint => ({
    ...fraction(place),
    confidence: random.chance(0.8) ? random.between(0.7, 1) : random.between(0.3, 0.7),
  });
  const points: Partial<Record<PointName, MeasuredPoint>> = {};
  for (const [name, place] of Object.entries(places)) points[name as PointName] = measured(place);
  const all = [...Object.values(places), headTop].map(fraction);
  const clip = (value: number) => Math.min(1, Math.max(0, value));
  const left = clip(Math.min(...all.map(({ x }) => x)));
  const top = clip(Math.min(...all.map(({ y }) => y)));
  const right = clip(Math.max(...all.map(({ x }) => x)));
  const bottom = clip(Math.max(...all.map(({ y }) => y)));
  return {
    id,
    source: random.chance(0.3) ? 'hand' : 'model',
    box: [left, top, right - left, bottom - top],
    points,
    headTop: measured(headTop),
    ...(outline && { outline: outline.map((corner) => clipped(fraction(corner))) }),
  };
}

function clipped({ x, y }: Point): Point {
  return { x: Math.min(1, Math.max(0, x)), y: Math.min(1, Math.max(0, y)) };
}
