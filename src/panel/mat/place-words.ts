import { BODY_POINTS, FOOT_POINTS } from '../../people/points.ts';
import type { Place } from '../../people/correct.ts';

/** The places that are moved and placed by hand, from head to foot; hands are measured, not placed. */
export const HAND_PLACED: readonly Place[] = ['head_top', 'chin', ...BODY_POINTS, ...FOOT_POINTS];

/** In which order a new person is placed: what the rules ask most about comes first. */
export const GUIDE: readonly Place[] = [
  'head_top',
  'left_eye',
  'right_eye',
  'nose',
  'chin',
  'left_shoulder',
  'right_shoulder',
  'left_elbow',
  'right_elbow',
  'left_wrist',
  'right_wrist',
  'left_hip',
  'right_hip',
  'left_knee',
  'right_knee',
  'left_ankle',
  'right_ankle',
];

/** Left and right are the person's own. */
export function placeWords(place: Place): string {
  return place === 'head_top' ? 'top of the head' : place.replaceAll('_', ' ');
}
