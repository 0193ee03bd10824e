import { distance } from '../geometry/points.ts';
import type { MeasuredPoint, Places } from './person.ts';
import type { BodyPoint } from './points.ts';
import { JOINTS } from './segments.ts';

/** A joint that was found, and the length in pixels of the longest limb that was found to end in it. */
export interface FoundJoint {
  readonly joint: BodyPoint;
  readonly place: MeasuredPoint;
  readonly limb: number;
}

/** The joints that no edge may come near; those of which no limb was found are left out. */
export function foundJoints(points: Places): FoundJoint[] {
  const found: FoundJoint[] = [];
  for (const { joint, limbs } of JOINTS) {
    const place = points[joint];
    if (!place) continue;
    let limb = 0;
    for (const { from, to } of limbs) {
      const [start, end] = [points[from], points[to]];
      if (start && end) limb = Math.max(limb, distance(start, end));
    }
    if (limb > 0) found.push({ joint, place, limb });
  }
  return found;
}
