import type { Point, Size } from '../../geometry/shapes.ts';
import { placeInPhoto } from '../image/grid.ts';
import type { PersonMask } from '../models/blazepose.ts';
import { longestContour } from './contour.ts';

const PERSON = 0.5;
/** Mask cells this near to the photo's edge are blurred by the blackness beyond it. */
const BLURRED_CELLS = 1.5;

/** The line around what is seen of the person, not yet simplified, in pixels of the decoded photo and inside it. */
export function traceOutline(mask: PersonMask, photo: Size): Point[] {
  const { grid } = mask;
  const coverage = continuedBeyond(mask, photo);
  return longestContour(coverage, grid.width, grid.height, PERSON).map((cell) => {
    const { x, y } = placeInPhoto(grid, cell.x, cell.y);
    return { x: clamp(x, 0, photo.width), y: clamp(y, 0, photo.height) };
  });
}

/** The mask with cells at or beyond the photo's edge taken from the nearest clear cell, so that a cut body ends at the edge. */
function continuedBeyond({ grid, coverage }: PersonMask, photo: Size): Float32Array {
  const cell = Math.hypot(grid.across.x, grid.across.y);
  const margin = BLURRED_CELLS * cell;
  const result = coverage.slice();
  for (let row = 0; row < grid.height; row++) {
    for (let column = 0; column < grid.width; column++) {
      const place = placeInPhoto(grid, column + 0.5, row + 0.5);
      const x = clamp(place.x, margin, photo.width - margin);
      const y = clamp(place.y, margin, photo.height - margin);
      if (x === place.x && y === place.y) continue;
      const dx = x - grid.origin.x;
      const dy = y - grid.origin.y;
      const fromColumn = Math.floor((dx * grid.across.x + dy * grid.across.y) / cell ** 2);
      const fromRow = Math.floor((dx * grid.down.x + dy * grid.down.y) / cell ** 2);
      const isInside = fromColumn >= 0 && fromRow >= 0 && fromColumn < grid.width && fromRow < grid.height;
      result[row * grid.width + column] = isInside ? coverage[fromRow * grid.width + fromColumn]! : 0;
    }
  }
  return result;
}

function clamp(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}
