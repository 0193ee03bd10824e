import type { Point, Size } from '../../geometry/shapes.ts';
import { turnPoint } from '../../geometry/turning.ts';
import type { Person } from '../../people/person.ts';
import type { Cover } from './plane.ts';

/** Around an outline, as a share of the picture's longer edge: it follows the body only so closely. */
const MARGIN = 0.008;

/**
 * 1 where somebody is, and a little around, else 0: lines there are of bodies and clothes.
 * @param degrees by which the picture is turned about its centre, clockwise as seen
 */
export function coverOfPeople(people: readonly Person[], { width, height }: Size, degrees = 0): Cover {
  const cover = new Uint8Array(width * height);
  const margin = Math.ceil(MARGIN * Math.max(width, height));
  for (const person of people) {
    const corners = (person.outline ?? cornersOfBox(person)).map(({ x, y }) =>
      turnPoint({ x: x * width, y: y * height }, { width, height }, degrees),
    );
    fillOutline(cover, { width, height }, corners, margin);
  }
  return { width, height, data: cover };
}

function cornersOfBox({ box: [left, top, width, height] }: Person): Point[] {
  const right = left + width;
  const bottom = top + height;
  return [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ];
}

/** Fills a closed line (even-odd rule) and `margin` pixels around it, across and up and down. */
function fillOutline(cover: Uint8Array, { width, height }: Size, corners: readonly Point[], margin: number): void {
  crossingsOfRows(corners, height).forEach((crossings, row) => {
    crossings.sort((first, second) => first - second);
    const [top, bottom] = [Math.max(0, row - margin), Math.min(height - 1, row + margin)];
    for (let pair = 0; pair + 1 < crossings.length; pair += 2) {
      const first = Math.max(0, Math.floor(crossings[pair]! - margin));
      const last = Math.min(width, Math.ceil(crossings[pair + 1]! + margin));
      if (first >= last) continue;
      for (let near = top; near <= bottom; near++) cover.fill(1, near * width + first, near * width + last);
    }
  });
}

/** For each row where a closed line crosses its middle. */
function crossingsOfRows(corners: readonly Point[], height: number): number[][] {
  const rows = Array.from({ length: height }, (): number[] => []);
  corners.forEach((from, index) => {
    const to = corners[(index + 1) % corners.length]!;
    const [upper, lower] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
    for (let row = Math.max(0, Math.ceil(upper - 0.5)); row < height && row + 0.5 < lower; row++) {
      const share = (row + 0.5 - from.y) / (to.y - from.y);
      rows[row]!.push(from.x + share * (to.x - from.x));
    }
  });
  return rows;
}
