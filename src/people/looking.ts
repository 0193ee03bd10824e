import type { Point } from '../geometry/shapes.ts';
import type { Places } from './person.ts';

/** Where a head is turned, as the picture shows it. */
export type Looking = 'left' | 'right' | 'ahead';

/**
 * How far the nose lies beside the middle of a pair, in half distances of the pair, from which a head is turned. Between
 * the ears it moves by about 1.5 · tan, between the eyes by 1.1 · tan of the angle (proportions of a head, common practice,
 * no source): about 22°, and 25° where the eyes alone say it.
 */
const TURNED = { ears: 0.6, eyes: 0.5 } as const;
/** With one ear seen and the other hidden, the eyes need to say less. */
const EYES_WITH_ONE_EAR = 0.3;

/** Which way somebody looks, from nose, eyes and ears; undefined when too few of them were found. */
export function lookingOf(places: Places): Looking | undefined {
  const { nose, left_eye: leftEye, right_eye: rightEye, left_ear: leftEar, right_ear: rightEar } = places;
  if (!nose) return undefined;
  if (leftEar && rightEar) return looking(beside(nose, rightEar, leftEar), TURNED.ears);
  const ear = leftEar ?? rightEar;
  if (leftEye && rightEye) {
    const turn = beside(nose, rightEye, leftEye);
    if (!ear) return looking(turn, TURNED.eyes);
    // Who turns to one side shows the ear of the other.
    const isAway = Math.sign(turn) === Math.sign(nose.x - ear.x);
    return looking(turn, isAway ? EYES_WITH_ONE_EAR : TURNED.eyes);
  }
  // A profile: one eye, one ear.
  if (ear && (leftEye ?? rightEye)) return nose.x < ear.x ? 'left' : 'right';
  return undefined;
}

function looking(turn: number, turned: number): Looking {
  if (Math.abs(turn) < turned) return 'ahead';
  return turn < 0 ? 'left' : 'right';
}

/**
 * How far the nose lies beside the middle of a pair, along it, in half distances; positive towards the right of the
 * picture. The pair may lean: what is across it does not count.
 */
function beside(nose: Point, one: Point, other: Point): number {
  const x = other.x - one.x;
  const y = other.y - one.y;
  const length = Math.hypot(x, y);
  if (length === 0) return 0;
  const alongPair = ((nose.x - (one.x + other.x) / 2) * x + (nose.y - (one.y + other.y) / 2) * y) / length;
  return (Math.sign(x) * alongPair) / (length / 2);
}
