import type { Point } from '../geometry/shapes.ts';

/** From where to where, along x. */
export type Stretch = readonly [number, number];

/**
 * The stretches of each height that lie inside a closed polygon and in none of its gaps, from the left.
 * @param heights rising, the same step between each two
 */
export function insideAt(
  outline: readonly Point[],
  heights: readonly number[],
  gaps: readonly (readonly Point[])[] = [],
): Map<number, Stretch[]> {
  const crossings = heights.map((): number[] => []);
  for (const polygon of [outline, ...gaps]) addCrossings(crossings, polygon, heights);
  return new Map(heights.map((y, index) => [y, pairsOf(crossings[index]!)]));
}

function addCrossings(crossings: readonly number[][], corners: readonly Point[], heights: readonly number[]): void {
  const [first = 0, second = first + 1] = heights;
  const step = second - first;
  let previous = corners[corners.length - 1]!;
  for (const corner of corners) {
    const [upper, lower] = previous.y <= corner.y ? [previous, corner] : [corner, previous];
    const from = Math.max(0, Math.ceil((upper.y - first) / step));
    const slope = (lower.x - upper.x) / (lower.y - upper.y);
    // The lower end belongs to the next side, so that a corner counts once.
    for (let index = from; index < heights.length && heights[index]! < lower.y; index++) {
      if (heights[index]! >= upper.y) crossings[index]!.push(upper.x + (heights[index]! - upper.y) * slope);
    }
    previous = corner;
  }
}

function pairsOf(crossings: number[]): Stretch[] {
  crossings.sort((a, b) => a - b);
  const stretches: Stretch[] = [];
  for (let index = 1; index < crossings.length; index += 2) stretches.push([crossings[index - 1]!, crossings[index]!]);
  return stretches;
}
