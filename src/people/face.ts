import { distance, middleOf } from '../geometry/points.ts';
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
  const features = [nose, leftEye, rightEye].filter((point) => point !== undefined);
  if (features.length < 2) return undefined;
  const eyePoints = [leftEye, rightEye].filter((point) => point !== undefined);
  const eyes = middleOf(...(eyePoints.length > 0 ? eyePoints : features));
  const chin = measuredChin ?? estimatedChin(eyes, nose, points);
  if (!chin) return undefined;
  const xs = [...features, chin].map((point) => point.x);
  const ys = [...features, chin].map((point) => point.y);
  const pad = AROUND * distance(chin, eyes);
  const box = {
    left: Math.min(...xs) - pad,
    top: Math.min(...ys) - pad,
    right: Math.max(...xs) + pad,
    bottom: Math.max(...ys),
  };
  return {
    box,
    eyes,
    chin,
    middle: { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 },
    confidence: Math.min(...features.map((point) => point.confidence)),
  };
}

function estimatedChin(eyes: Point, nose: Point | undefined, points: Places): Point | undefined {
  const shoulders = [points.left_shoulder, points.right_shoulder].filter((point) => point !== undefined);
  if (shoulders.length === 2) {
    const middle = middleOf(...shoulders);
    const share = PROPORTIONS.eyesToChin / PROPORTIONS.eyesToShoulder;
    return { x: eyes.x + (middle.x - eyes.x) * share, y: eyes.y + (middle.y - eyes.y) * share };
  }
  if (!nose) return undefined;
  return { x: nose.x + (nose.x - eyes.x) * NOSE_TO_CHIN, y: nose.y + (nose.y - eyes.y) * NOSE_TO_CHIN };
}
