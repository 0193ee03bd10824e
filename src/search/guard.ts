import type { HalfSpace } from '../geometry/half-space.ts';
import type { EdgeName, Size } from '../geometry/shapes.ts';
import { EDGE_NAMES } from '../geometry/shapes.ts';
import { roundingStep } from './conditions.ts';

/**
 * An escape as the search must meet it: `deeper` pixels further than the rule asks, and so much further that it still
 * holds when the crop is written (four decimals, rounded inward). At the photo's own edge there is nothing deeper.
 */
export function guarded(escape: HalfSpace, scene: { photo: Size; degrees: number }, deeper: number): HalfSpace {
  const largest = Math.max(...EDGE_NAMES.map((edge) => Math.abs(escape[edge])));
  const bound = escape.atMost - deeper * largest - inwardGrowth(escape, scene.photo);
  return { ...escape, atMost: Math.max(bound, boundAtPhotoEdge(escape, scene) ?? -Infinity) };
}

/** How much the left side can grow by rounding a crop inward. */
function inwardGrowth(escape: HalfSpace, photo: Size): number {
  const x = Math.max(0, escape.left) + Math.max(0, -escape.right);
  const y = Math.max(0, escape.top) + Math.max(0, -escape.bottom);
  return x * roundingStep(photo.width) + y * roundingStep(photo.height);
}

/** The least that an escape of one edge, outward, can be asked: the photo's own edge, if that meets the rule. */
function boundAtPhotoEdge(escape: HalfSpace, { photo, degrees }: { photo: Size; degrees: number }): number | undefined {
  const moving = EDGE_NAMES.filter((edge) => escape[edge] !== 0);
  const [edge] = moving;
  if (degrees !== 0 || moving.length !== 1 || !edge) return undefined;
  const outward = edge === 'left' || edge === 'top' ? escape[edge] > 0 : escape[edge] < 0;
  const least = escape[edge] * ownEdge(edge, photo);
  return outward && least <= escape.atMost ? least : undefined;
}

/** Where the photo's own edge lies, in pixels. */
export function ownEdge(edge: EdgeName, photo: Size): number {
  return { left: 0, top: 0, right: photo.width, bottom: photo.height }[edge];
}
