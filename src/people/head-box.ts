import type { Edges } from '../geometry/shapes.ts';
import type { Figure } from './figure.ts';

/** Hair beside an ear, as a share of the person's height (common practice, no source). */
export const HAIR = 0.02;

/** The face with ears and the hair beside them, in pixels of the turned picture; undefined where no face was found. */
export function headBox({ face, points, height }: Pick<Figure, 'face' | 'points' | 'height'>): Edges | undefined {
  if (!face) return undefined;
  const ears = [points.left_ear, points.right_ear].flatMap((ear) => ear?.x ?? []);
  if (ears.length === 0) return face.box;
  const { left, top, right, bottom } = face.box;
  const hair = HAIR * height;
  return {
    left: Math.min(left, ...ears.map((x) => x - hair)),
    top,
    right: Math.max(right, ...ears.map((x) => x + hair)),
    bottom,
  };
}
