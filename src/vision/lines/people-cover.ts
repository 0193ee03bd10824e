import type { Point, Size } from '../../geometry/shapes.ts';
import { turnPoint } from '../../geometry/turning.ts';
import type { Person } from '../../people/person.ts';
import type { Plane } from './plane.ts';

/** Around an outline, as a share of the picture's longer edge: it follows the body only so closely. */
const MARGIN = 0.008;

/**
 * 1 where somebody is, and a little around, else 0: lines there are of bodies and clothes.
 * @param degrees by which the picture is turned about its centre, clockwise as seen
 */
export function coverOfPeople(people: readonly Person[], { width, height }: Size, degrees = 0): Plane {
  const cover = new Float32Array(width * height);
  const margin = Math.ceil(MARGIN * Math.max(width, height));
  for (const person of people) {
    const corners = (person.outline ?? cornersOfBox(person)).map(({ x, y }) =>
      turnPoint({ x: x * width, y: y * height }, { width, height }, degrees),
    );
    for (let y = 0; y < height; y++) fillRow(cover, width, y, corners, margin);
  }
  return { width, height, data: widenedUpAndDown(cover, width, height, margin) };
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

function fillRow(cover: Float32Array, width: number, row: number, corners: readonly Point[], margin: number): void {
  const y = row + 0.5;
  const crossings: number[] = [];
  for (let index = 0; index < corners.length; index++) {
    const from = corners[index]!;
    const to = corners[(index + 1) % corners.length]!;
    if (from.y <= y !== to.y <= y) crossings.push(from.x + ((y - from.y) / (to.y - from.y)) * (to.x - from.x));
  }
  crossings.sort((first, second) => first - second);
  for (let pair = 0; pair + 1 < crossings.length; pair += 2) {
    const first = Math.max(0, Math.floor(crossings[pair]! - margin));
    const last = Math.min(width, Math.ceil(crossings[pair + 1]! + margin));
    if (first < last) cover.fill(1, row * width + first, row * width + last);
  }
}

function widenedUpAndDown(cover: Float32Array, width: number, height: number, margin: number): Float32Array {
  const result = new Float32Array(cover.length);
  for (let x = 0; x < width; x++) {
    let reach = -1;
    for (let y = 0; y < height + margin; y++) {
      if (y < height && cover[y * width + x]! > 0) reach = y + margin;
      const row = y - margin;
      if (row >= 0 && row < height && reach >= row) result[row * width + x] = reach >= row ? 1 : 0;
    }
  }
  return result;
}
