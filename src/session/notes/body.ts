import type { Figure } from '../../people/figure.ts';
import type { Region } from '../../people/regions.ts';
import { kneeLine } from '../../people/knee-line.ts';

/** Where a lower edge is usually put (DESIGN, Where a cut is fine: the aims), as shares of hip → knee and shoulder → hip. */
const ON_THIGH = [0.4, 0.7] as const;
const ON_TORSO = [0.5, 0.75] as const;
/** A hand over so much of the place leaves no room for an edge beside it (common practice, no source). */
const IN_THE_WAY = 0.5;

export type UsualCrop = 'three-quarter' | 'half-length';

/** The usual crops whose lower edge would go through one of these hands of a person. */
export function handsInTheWay(figure: Figure, hands: readonly Region[]): UsualCrop[] {
  const { shoulder, hip } = figure.lines;
  const zones: readonly (readonly [UsualCrop, number, number, readonly [number, number]])[] = [
    ['three-quarter', hip, kneeLine(figure), ON_THIGH],
    ['half-length', shoulder, hip, ON_TORSO],
  ];
  return zones
    .filter(([, from, to, [low, high]]) => {
      const start = from + low * (to - from);
      const end = from + high * (to - from);
      const covered = hands.map(({ box }) => Math.min(end, box.bottom) - Math.max(start, box.top));
      return end > start && covered.some((height) => height >= IN_THE_WAY * (end - start));
    })
    .map(([length]) => length);
}

/** Ankles nearer to each other than the hips are wide, and one clearly lower (common practice, no source). */
const NEAR = 0.6;
const LOWER = 0.012;
/** Hips seen from the side are not as narrow as they look. */
const LEAST_HIPS = 0.08;

/**
 * Whether somebody stands or walks with one foot in front of the other, knees together, so that the legs narrow below the
 * hips: undefined where the legs were not found. Once outlines tell narrow places by themselves, this is where they speak.
 */
export function isFootBeforeFoot({ points, height }: Figure): boolean | undefined {
  const { left_hip, right_hip, left_knee, right_knee, left_ankle, right_ankle } = points;
  if (!left_hip || !right_hip || !left_knee || !right_knee || !left_ankle || !right_ankle) return undefined;
  const hips = Math.max(Math.abs(left_hip.x - right_hip.x), LEAST_HIPS * height);
  const areNear = Math.abs(left_ankle.x - right_ankle.x) < NEAR * hips && Math.abs(left_knee.x - right_knee.x) < hips;
  return areNear && Math.abs(left_ankle.y - right_ankle.y) > LOWER * height;
}
