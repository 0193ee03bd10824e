/**
 * Names of the points on a body, as COCO-WholeBody has them (Jin et al., 2020; the first 17 are those of COCO,
 * Lin et al., 2014). Left and right are the person's own.
 */
export const BODY_POINTS = [
  'nose', 'left_eye', 'right_eye', 'left_ear', 'right_ear',
  'left_shoulder', 'right_shoulder', 'left_elbow', 'right_elbow', 'left_wrist', 'right_wrist',
  'left_hip', 'right_hip', 'left_knee', 'right_knee', 'left_ankle', 'right_ankle',
] as const; // prettier-ignore

export const FOOT_POINTS = [
  'left_big_toe', 'left_small_toe', 'left_heel', 'right_big_toe', 'right_small_toe', 'right_heel',
] as const; // prettier-ignore

export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

export const FINGERS = ['thumb', 'forefinger', 'middle_finger', 'ring_finger', 'pinky_finger'] as const;
type Finger = (typeof FINGERS)[number];
type Phalanx = 1 | 2 | 3 | 4;

export type BodyPoint = (typeof BODY_POINTS)[number];
export type FootPoint = (typeof FOOT_POINTS)[number];
/** A hand's root, then 1 to 4 from root to tip of each finger: `left_hand_root`, `left_thumb1` … `left_pinky_finger4`. */
export type HandPoint = `${Side}_hand_root` | `${Side}_${Finger}${Phalanx}`;
export type PointName = BodyPoint | FootPoint | HandPoint;

/** The 21 point names of one hand, in COCO-WholeBody order. */
export function handPoints(side: Side): readonly HandPoint[] {
  return HAND_POINTS[side];
}

const HAND_POINTS: Record<Side, readonly HandPoint[]> = { left: namesOfHand('left'), right: namesOfHand('right') };

function namesOfHand(side: Side): HandPoint[] {
  const phalanges = [1, 2, 3, 4] as const;
  const fingers = FINGERS.flatMap((finger) => phalanges.map((phalanx): HandPoint => `${side}_${finger}${phalanx}`));
  return [`${side}_hand_root`, ...fingers];
}

/** Every point name that a people file may use, in the order in which it is written. */
export const POINT_NAMES: readonly PointName[] = [
  ...BODY_POINTS,
  ...FOOT_POINTS,
  ...HAND_POINTS.left,
  ...HAND_POINTS.right,
];

const OF_HANDS: ReadonlySet<string> = new Set([...HAND_POINTS.left, ...HAND_POINTS.right]);

export function isHandPoint(name: string): name is HandPoint {
  return OF_HANDS.has(name);
}

const KNOWN: ReadonlySet<string> = new Set(POINT_NAMES);

export function isPointName(name: string): name is PointName {
  return KNOWN.has(name);
}
