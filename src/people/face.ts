import { boxAround, distance, middleOf } from '../geometry/points.ts';
import type { Edges, Point } from '../geometry/shapes.ts';
import type { MeasuredPoint, Places } from './person.ts';
import { PROPORTIONS } from './proportions.ts';

/** Eyes, nose, mouth and chin of one person, in pixels of the turned picture. */
export interface Face {
  /** The box around eyes, nose, mouth and chin, with a little skin around it. */
  readonly box: Edges;
  /** Between the eyes. */
  readonly eyes: Point;
  readonly chin: Point;
  readonly middle: Point;
  /** The least sure of the points it stands on. */
  readonly confidence: number;
}

/** Skin around the features, as a share of the distance from eyes to chin (common practice, no source). */
const AROUND = 0.15;
const NOSE_TO_CHIN = 1.6;

/**
 * The face from the points that were found; undefined when neither eyes nor nose were (seen from behind, out of frame).
 * A chin that was not measured is estimated from the shoulders, else from the nose.
 */
export function faceOf(points: Places, measuredChin: MeasuredPoint | undefined): Face | undefined {
  const { nose, left_eye: leftEye, right_eye: rightEye } = points;
  const features = [];
  if (nose) features.push(nose);
  if (leftEye) features.push(leftEye);
  if (rightEye) features.push(rightEye);
  if (features.length < 2) return undefined;
  const eyes = leftEye && rightEye ? middleOf(leftEye, rightEye) : middleOf((leftEye ?? rightEye)!);
  const chin = measuredChin ?? estimatedChin(eyes, nose, points);
  if (!chin) return undefined;
  const pad = AROUND * distance(chin, eyes);
  const around = boxAround([...features, chin]);
  const box = {
    left: around.left - pad,
    top: around.top - pad,
    right: around.right + pad,
    bottom: around.bottom,
  };
  let confidence = Infinity;
  for (const feature of features) confidence = Math.min(confidence, feature.confidence);
  return {
    box,
    eyes,
    chin,
    middle: { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 },
    confidence,
  };
}

function estimatedChin(eyes: Point, nose: Point | undefined, points: Places): Point | undefined {
  const { left_shoulder: left, right_shoulder: right } = points;
  if (left && right) {
    const middle = middleOf(left, right);
    const share = PROPORTIONS.eyesToChin / PROPORTIONS.eyesToShoulder;
    return { x: eyes.x + (middle.x - eyes.x) * share, y: eyes.y + (middle.y - eyes.y) * share };
  }
  if (!nose) return undefined;
  return { x: nose.x + (nose.x - eyes.x) * NOSE_TO_CHIN, y: nose.y + (nose.y - eyes.y) * NOSE_TO_CHIN };
}
