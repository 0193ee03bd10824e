import type { Edges } from './shapes.ts';
import { heightOf, widthOf } from './shapes.ts';

/** The shape of a paper or screen, `A:B`. It may be used upright or lying. */
export interface Ratio {
  readonly a: number;
  readonly b: number;
}

/** Reads `2:3` or `1.91:1`; undefined when it is not two positive numbers with a colon between. */
export function parseRatio(text: string): Ratio | undefined {
  const match = /^\s*(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)\s*$/.exec(text);
  if (!match) return undefined;
  const a = Number(match[1]);
  const b = Number(match[2]);
  return a > 0 && b > 0 && Number.isFinite(a / b) ? { a, b } : undefined;
}

export const ORIENTATIONS = ['upright', 'lying'] as const;
export type Orientation = (typeof ORIENTATIONS)[number];

/** Upright when higher than wide, lying when wider than high; a square takes `otherwise`. */
export function orientationOf(edges: Edges, otherwise: Orientation): Orientation {
  const difference = heightOf(edges) - widthOf(edges);
  // Half a pixel: what four decimals may add or take away.
  if (Math.abs(difference) < 0.5) return otherwise;
  return difference > 0 ? 'upright' : 'lying';
}

/** Width over height of a paper of this shape, held that way. */
export function shapeOf(ratio: Ratio, orientation: Orientation): number {
  const upright = Math.min(ratio.a, ratio.b) / Math.max(ratio.a, ratio.b);
  return orientation === 'upright' ? upright : 1 / upright;
}

/** Shapes that differ by less are the same, as the rule `aspect` has it unless a manifest says otherwise. */
const SAME_SHAPE = 0.005;

/** Whether two shapes, width over height, are the same. */
export function isSameShape(shape: number, other: number): boolean {
  return Math.abs(shape / other - 1) <= SAME_SHAPE;
}
