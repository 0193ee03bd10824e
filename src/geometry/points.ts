import type { Edges, Point } from './shapes.ts';

/** The mean of one or more points, in their unit. */
export function middleOf(...points: readonly Point[]): Point {
  let x = 0;
  let y = 0;
  for (const point of points) {
    x += point.x;
    y += point.y;
  }
  return { x: x / points.length, y: y / points.length };
}

export function distance(first: Point, second: Point): number {
  const across = first.x - second.x;
  const down = first.y - second.y;
  // Math.hypot guards against overflow, which pixels never do, and is ten times slower.
  return Math.sqrt(across * across + down * down);
}

/** The smallest upright box that holds all of one or more points, in their unit. */
export function boxAround(points: readonly Point[]): Edges {
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (const { x, y } of points) {
    box.left = Math.min(box.left, x);
    box.top = Math.min(box.top, y);
    box.right = Math.max(box.right, x);
    box.bottom = Math.max(box.bottom, y);
  }
  return box;
}

/** Twice the area of a closed polygon; the sign says which way round it runs. */
export function twiceSignedArea(polygon: readonly Point[]): number {
  let sum = 0;
  for (let index = 0; index < polygon.length; index++) {
    const a = polygon[index]!;
    const b = polygon[index + 1] ?? polygon[0]!;
    sum = sum + a.x * b.y - b.x * a.y;
  }
  return sum;
}
