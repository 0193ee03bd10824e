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
  addCrossings(crossings, outline, heights);
  for (const gap of gaps) addCrossings(crossings, gap, heights);
  const stretches = new Map<number, Stretch[]>();
  for (let index = 0; index < heights.length; index++) stretches.set(heights[index]!, pairsOf(crossings[index]!));
  return stretches;
}

function addCrossings(crossings: readonly number[][], corners: readonly Point[], heights: readonly number[]): void {
  const [first = 0, second = first + 1] = heights;
  const step = second - first;
  let previous = corners[corners.length - 1]!;
  for (const corner of corners) {
    const upper = previous.y <= corner.y ? previous : corner;
    const lower = upper === previous ? corner : previous;
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
  if (crossings.length > FEW) crossings.sort((a, b) => a - b);
  else sortFew(crossings);
  const stretches: Stretch[] = [];
  for (let index = 1; index < crossings.length; index += 2) stretches.push([crossings[index - 1]!, crossings[index]!]);
  return stretches;
}

const FEW = 16;

/** In place, rising. An outline crosses a height a few times: for two numbers `sort` takes longer than all the rest. */
function sortFew(numbers: number[]): void {
  for (let next = 1; next < numbers.length; next++) {
    const number = numbers[next]!;
    let at = next;
    for (; at > 0 && numbers[at - 1]! > number; at--) numbers[at] = numbers[at - 1]!;
    numbers[at] = number;
  }
}
