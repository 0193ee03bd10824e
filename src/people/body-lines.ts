import type { Edges, Point } from '../geometry/shapes.ts';
import { middleOf } from '../geometry/points.ts';
import type { MeasuredPoint, Places } from './person.ts';
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
  const eyesPoint =
    middle(points.left_eye, points.right_eye) ?? points.nose ?? middle(points.left_ear, points.right_ear);
  const shoulders = middle(points.left_shoulder, points.right_shoulder);
  const hips = middle(points.left_hip, points.right_hip);
  const ankles = middle(points.left_ankle, points.right_ankle);
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

function middle(left: Point | undefined, right: Point | undefined): Point | undefined {
  return left && right ? middleOf(left, right) : (left ?? right);
}

/** The lowest point of the feet that were found; from an ankle alone, the sole under it. */
function lowestOf(points: Places): number | undefined {
  const left = lowestOfFoot(
    [points.left_big_toe, points.left_small_toe, points.left_heel],
    points.left_ankle,
    points.left_knee,
  );
  const right = lowestOfFoot(
    [points.right_big_toe, points.right_small_toe, points.right_heel],
    points.right_ankle,
    points.right_knee,
  );
  const lowest = Math.max(left, right);
  return lowest === -Infinity ? undefined : lowest;
}

/** −∞ when nothing of the foot was found. */
function lowestOfFoot(foot: readonly (Point | undefined)[], ankle: Point | undefined, knee: Point | undefined): number {
  let lowest = -Infinity;
  for (const point of foot) if (point && point.y > lowest) lowest = point.y;
  if (lowest > -Infinity || !ankle) return lowest;
  return ankle.y + (knee ? scaled(Math.max(0, ankle.y - knee.y), 'kneeToAnkle', 'ankleToSole') : 0);
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
