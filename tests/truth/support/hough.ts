import type { Pyramid } from '../../../src/vision/image/pyramid.ts';
import { lightnessOf } from '../../../src/vision/lines/plane.ts';

const LONG_EDGE = 800;
const MOST = 15;
const STEP = 0.1;
/** The share of all pixels that count as edges: those with the strongest gradient. */
const EDGES = 0.05;

/**
 * The usual way without any knowledge of perspective or people: Hough's transform (Duda and Hart, 1972) of the picture's
 * strongest edges (Sobel), near upright and near level; the lean whose lines gather the most edge pixels, as the sum of
 * squared votes.
 * @returns degrees as `straighten` has them
 */
export function houghTilt(picture: Pyramid): number {
  const { width, height, data } = lightnessOf(picture, LONG_EDGE);
  const edges: { x: number; y: number; size: number; isUpright: boolean }[] = [];
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const at = (dx: number, dy: number): number => data[(y + dy) * width + x + dx]!;
      const across = at(1, -1) + 2 * at(1, 0) + at(1, 1) - at(-1, -1) - 2 * at(-1, 0) - at(-1, 1);
      const down = at(-1, 1) + 2 * at(0, 1) + at(1, 1) - at(-1, -1) - 2 * at(0, -1) - at(1, -1);
      const size = Math.hypot(across, down);
      if (size > 20) edges.push({ x, y, size, isUpright: Math.abs(across) > Math.abs(down) });
    }
  }
  edges.sort((first, second) => second.size - first.size);
  edges.length = Math.min(edges.length, Math.round(EDGES * width * height));
  const diagonal = Math.ceil(Math.hypot(width, height));
  let best = { degrees: 0, score: 0 };
  for (let degrees = -MOST; degrees <= MOST + 1e-9; degrees += STEP) {
    const angle = (-degrees * Math.PI) / 180;
    const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
    const upright = new Float64Array(2 * diagonal);
    const level = new Float64Array(2 * diagonal);
    for (const { x, y, isUpright } of edges) {
      if (isUpright) upright[Math.round(x * cosine + y * sine) + diagonal]! += 1;
      else level[Math.round(y * cosine - x * sine) + diagonal]! += 1;
    }
    let score = 0;
    for (let at = 0; at < 2 * diagonal; at++) score += upright[at]! ** 2 + level[at]! ** 2;
    if (score > best.score) best = { degrees, score };
  }
  return best.degrees;
}
