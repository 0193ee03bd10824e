import type { Edges, Point } from '../geometry/shapes.ts';
import { middleOf } from '../geometry/points.ts';
import type { MeasuredPoint, Places } from './person.ts';
import type { PointName } from './points.ts';
import { PROPORTIONS } from './proportions.ts';

/**
 * The heights (y, pixels of the turned picture, growing downwards) that tell one length from the next.
 * Seen where the points were found, else estimated from the parts that were, by the proportions of a standing adult.
 * Always in order: headTop ≤ eyes ≤ shoulder ≤ hip ≤ ankle ≤ sole.
 */
export interface BodyLines {
  readonly headTop: number;
  readonly eyes: number;
  readonly shoulder: number;
  readonly hip: number;
  readonly ankle: number;
  /** The lowest of the feet, or of the hem or train that hides them. */
  readonly sole: number;
  /** A dress or robe hides the ankles, so that its hem stands for the feet. */
  readonly hemHidesFeet: boolean;
  /** Where the head ends by the proportions, when it was not measured. */
  readonly estimatedHeadTop: MeasuredPoint | undefined;
}

const ESTIMATED_CONFIDENCE = 0.5;

export function bodyLines(
  points: Places,
  measuredHeadTop: MeasuredPoint | undefined,
  outline: readonly Point[] | undefined,
  extent: Edges,
): BodyLines {
  const middle = (left: PointName, right: PointName): Point | undefined => {
    const found = [points[left], points[right]].filter((point) => point !== undefined);
    return found.length > 0 ? middleOf(...found) : undefined;
  };
  const eyesPoint = middle('left_eye', 'right_eye') ?? points.nose ?? middle('left_ear', 'right_ear');
  const shoulders = middle('left_shoulder', 'right_shoulder');
  const hips = middle('left_hip', 'right_hip');
  const ankles = middle('left_ankle', 'right_ankle');
  const lowest = lowestOf(points);

  const torso =
    shoulders && hips
      ? Math.abs(hips.y - shoulders.y)
      : shoulders && eyesPoint
        ? scaled(shoulders.y - eyesPoint.y, 'eyesToShoulder', 'shoulderToHip')
        : (extent.bottom - extent.top) * PROPORTIONS.shoulderToHip;

  const estimatedHeadTop = headTopFrom(eyesPoint, shoulders);
  const headTop = measuredHeadTop?.y ?? estimatedHeadTop?.y ?? extent.top;
  const eyes = Math.max(headTop, eyesPoint?.y ?? headTop + torso * ratio('eyesToHeadTop'));
  const shoulder = Math.max(eyes, shoulders?.y ?? eyes + torso * ratio('eyesToShoulder'));
  const hip = Math.max(shoulder, hips?.y ?? shoulder + torso);
  const legs = torso * (ratio('hipToKnee') + ratio('kneeToAnkle'));
  const hemHidesFeet = !ankles && lowest === undefined && outline !== undefined && extent.bottom > hip + legs / 2;
  const ankle = Math.max(hip, ankles?.y ?? (hemHidesFeet ? extent.bottom : hip + legs));
  const sole = Math.max(ankle, hemHidesFeet ? extent.bottom : (lowest ?? ankle + torso * ratio('ankleToSole')));
  return { headTop, eyes, shoulder, hip, ankle, sole, hemHidesFeet, estimatedHeadTop };
}

/** The lowest point of the feet that were found; from an ankle alone, the sole under it. */
function lowestOf(points: Places): number | undefined {
  const heights: number[] = [];
  for (const side of ['left', 'right'] as const) {
    const feet = [points[`${side}_big_toe`], points[`${side}_small_toe`], points[`${side}_heel`]];
    const found = feet.filter((point) => point !== undefined);
    const ankle = points[`${side}_ankle`];
    const knee = points[`${side}_knee`];
    if (found.length > 0) heights.push(...found.map((point) => point.y));
    else if (ankle) {
      const below = knee ? scaled(Math.max(0, ankle.y - knee.y), 'kneeToAnkle', 'ankleToSole') : 0;
      heights.push(ankle.y + below);
    }
  }
  return heights.length > 0 ? Math.max(...heights) : undefined;
}

function headTopFrom(eyes: Point | undefined, shoulders: Point | undefined): MeasuredPoint | undefined {
  if (!eyes || !shoulders || shoulders.y <= eyes.y) return undefined;
  const share = PROPORTIONS.eyesToHeadTop / PROPORTIONS.eyesToShoulder;
  return {
    x: eyes.x + (eyes.x - shoulders.x) * share,
    y: eyes.y - (shoulders.y - eyes.y) * share,
    confidence: ESTIMATED_CONFIDENCE,
  };
}

/** A proportion measured in torsos. */
function ratio(part: keyof typeof PROPORTIONS): number {
  return PROPORTIONS[part] / PROPORTIONS.shoulderToHip;
}

function scaled(length: number, from: keyof typeof PROPORTIONS, to: keyof typeof PROPORTIONS): number {
  return (Math.max(0, length) * PROPORTIONS[to]) / PROPORTIONS[from];
}
