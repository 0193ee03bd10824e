import { twiceSignedArea } from '../../geometry/points.ts';
import type { Point, Size } from '../../geometry/shapes.ts';
import { placeInPhoto } from '../image/grid.ts';
import type { PersonMask } from '../models/blazepose.ts';
import { contours } from './contour.ts';

const PERSON = 0.5;
/** Mask cells this near to the photo's edge are blurred by the blackness beyond it. */
const BLURRED_CELLS = 1.5;

/** Smaller gaps are specks of the mask; in its cells. */
const LEAST_GAP = 30;

/** What is seen of a person: the line around it, and those around the gaps in it, the largest first. */
export interface TracedOutline {
  readonly outline: readonly Point[];
  readonly gaps: readonly (readonly Point[])[];
}

/** Traces a mask: lines not yet simplified, in pixels of the decoded photo and inside it; empty without a mask. */
export function traceOutline(mask: PersonMask | undefined, photo: Size): TracedOutline {
  if (mask === undefined) return { outline: [], gaps: [] };
  const { grid } = mask;
  const [outer = [], ...others] = contours(continuedBeyond(mask, photo), grid.width, grid.height, PERSON);
  const placed = (line: readonly Point[]): Point[] =>
    line.map((cell) => {
      const { x, y } = placeInPhoto(grid, cell.x, cell.y);
      return { x: clamp(x, 0, photo.width), y: clamp(y, 0, photo.height) };
    });
  const gaps = others
    .map((line) => ({ line, area: (-Math.sign(twiceSignedArea(outer)) * twiceSignedArea(line)) / 2 }))
    // Around something else of the person that lies apart a line runs as the outer one does.
    .filter(({ line, area }) => area >= LEAST_GAP && isInside(line[0]!, outer))
    .sort((first, second) => second.area - first.area);
  return { outline: placed(outer), gaps: gaps.map(({ line }) => placed(line)) };
}

/** Whether a place lies inside a closed polygon. */
function isInside({ x, y }: Point, polygon: readonly Point[]): boolean {
  let inside = false;
  let before = polygon[polygon.length - 1]!;
  for (const corner of polygon) {
    const isCrossed = corner.y > y !== before.y > y;
    if (isCrossed && x < before.x + ((y - before.y) / (corner.y - before.y)) * (corner.x - before.x)) inside = !inside;
    before = corner;
  }
  return inside;
}

/** The mask with cells at or beyond the photo's edge taken from the nearest clear cell, so that a cut body ends at the edge. */
function continuedBeyond({ grid, coverage }: PersonMask, photo: Size): Float32Array {
  const cell = Math.hypot(grid.across.x, grid.across.y);
  const margin = BLURRED_CELLS * cell;
  const [right, bottom] = [photo.width - margin, photo.height - margin];
  const isClear = ({ x, y }: Point): boolean => x >= margin && x <= right && y >= margin && y <= bottom;
  const placeOf = (column: number, row: number): Point => placeInPhoto(grid, column + 0.5, row + 0.5);
  const result = coverage.slice();
  for (let row = 0; row < grid.height; row++) {
    // What lies between two clear cells is clear.
    if (isClear(placeOf(0, row)) && isClear(placeOf(grid.width - 1, row))) continue;
    for (let column = 0; column < grid.width; column++) {
      const place = placeOf(column, row);
      if (isClear(place)) continue;
      const dx = clamp(place.x, margin, right) - grid.origin.x;
      const dy = clamp(place.y, margin, bottom) - grid.origin.y;
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
