import type { Point } from '../../geometry/shapes.ts';
import { Smallest } from './smallest.ts';

/**
 * The closed lines around the cells whose value is at least `level`, the longest first, between cells in a straight line
 * (marching squares). Places in cells; a cell's centre is at +0.5. Around a gap a line runs the other way. Empty when
 * nothing reaches the level.
 */
export function contours(values: Float32Array, width: number, height: number, level: number): Point[][] {
  // Outside the field nothing reaches the level, so every line is closed.
  const at = (x: number, y: number): number =>
    x < 0 || y < 0 || x >= width || y >= height ? -1 : values[y * width + x]! - level;
  const next = new Map<number, number>();
  const places = new Map<number, Point>();
  const stride = width + 2;
  // Edges between neighbouring cells: even keys to the right of (x, y), odd keys below it.
  const rightOf = (x: number, y: number): number => 2 * ((y + 1) * stride + (x + 1));
  const below = (x: number, y: number): number => rightOf(x, y) + 1;
  const crossing = (key: number, x: number, y: number, toX: number, toY: number): number => {
    if (!places.has(key)) {
      const from = at(x, y);
      const share = from / (from - at(toX, toY));
      places.set(key, { x: x + 0.5 + share * (toX - x), y: y + 0.5 + share * (toY - y) });
    }
    return key;
  };
  // Of the square whose top left corner is the cell (x, y), clockwise from its top.
  const edges = [
    (x: number, y: number) => crossing(rightOf(x, y), x, y, x + 1, y),
    (x: number, y: number) => crossing(below(x + 1, y), x + 1, y, x + 1, y + 1),
    (x: number, y: number) => crossing(rightOf(x, y + 1), x, y + 1, x + 1, y + 1),
    (x: number, y: number) => crossing(below(x, y), x, y, x, y + 1),
  ];
  const isInside = insideWithBorder(values, width, height, level);
  for (let y = -1; y < height; y++) {
    for (let x = -1; x < width; x++) {
      const corner = (y + 1) * stride + (x + 1);
      const topLeft = isInside[corner]!;
      const topRight = isInside[corner + 1]!;
      const bottomRight = isInside[corner + stride + 1]!;
      const bottomLeft = isInside[corner + stride]!;
      if (topLeft === topRight && topLeft === bottomRight && topLeft === bottomLeft) continue;
      const corners = [topLeft, topRight, bottomRight, bottomLeft];
      // Walking clockwise around the cell square: a line comes in where inside turns to outside and leaves at the
      // nearest change back.
      for (let side = 0; side < 4; side++) {
        if (!corners[side]! || corners[(side + 1) % 4]!) continue;
        let back = (side + 3) % 4;
        while (corners[back]! || !corners[(back + 1) % 4]!) back = (back + 3) % 4;
        next.set(edges[side]!(x, y), edges[back]!(x, y));
      }
    }
  }
  return loops(next, places).sort((first, second) => second.length - first.length);
}

/** 1 for each cell that reaches the level, else 0; with a border of one cell all around, which does not. */
function insideWithBorder(values: Float32Array, width: number, height: number, level: number): Uint8Array {
  const isInside = new Uint8Array((width + 2) * (height + 2));
  for (let y = 0, from = 0; y < height; y++) {
    for (let x = 0, to = (y + 1) * (width + 2) + 1; x < width; x++, from++, to++) {
      isInside[to] = values[from]! >= level ? 1 : 0;
    }
  }
  return isInside;
}

function loops(next: ReadonlyMap<number, number>, places: ReadonlyMap<number, Point>): Point[][] {
  const seen = new Set<number>();
  const found: Point[][] = [];
  for (const start of next.keys()) {
    const loop: Point[] = [];
    for (let key: number | undefined = start; key !== undefined && !seen.has(key); key = next.get(key)) {
      seen.add(key);
      loop.push(places.get(key)!);
    }
    if (loop.length > 0) found.push(loop);
  }
  return found;
}

/** The polygon with at most `most` corners: again and again the corner goes that spans the smallest triangle (Visvalingam and Whyatt, 1993). */
export function simplify(polygon: readonly Point[], most: number): Point[] {
  const count = polygon.length;
  const before = Int32Array.from(polygon, (_, index) => (index + count - 1) % count);
  const after = Int32Array.from(polygon, (_, index) => (index + 1) % count);
  const areaAt = (index: number): number =>
    triangleArea(polygon[before[index]!]!, polygon[index]!, polygon[after[index]!]!);
  const areas = new Smallest(polygon.map((_, index) => areaAt(index)));
  const gone = new Set<number>();
  while (count - gone.size > most) {
    const index = areas.place();
    gone.add(index);
    areas.set(index, Infinity);
    const [left, right] = [before[index]!, after[index]!];
    after[left] = right;
    before[right] = left;
    areas.set(left, areaAt(left));
    areas.set(right, areaAt(right));
  }
  return polygon.filter((_, index) => !gone.has(index));
}

function triangleArea(before: Point, here: Point, after: Point): number {
  return Math.abs((here.x - before.x) * (after.y - before.y) - (after.x - before.x) * (here.y - before.y)) / 2;
}
