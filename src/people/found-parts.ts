import type { MeasuredPoint, Places } from './person.ts';
import { SEGMENTS, type Segment } from './segments.ts';

/** A part of the body of which both ends were found. */
export interface FoundPart {
  readonly segment: Segment;
  readonly from: MeasuredPoint;
  readonly to: MeasuredPoint;
}

export function foundParts(points: Places): FoundPart[] {
  const found: FoundPart[] = [];
  for (const segment of SEGMENTS) {
    const from = points[segment.from];
    const to = points[segment.to];
    if (from && to) found.push({ segment, from, to });
  }
  return found;
}
