import type { Point } from '../../../src/geometry/shapes.ts';
import type { FoundPerson } from './errors.ts';

/** Shared area over joint area of a measured outline and the labelled mask, 0 to 1. */
export function outlineOverlap({ photo, labelled, found }: FoundPerson): number {
  const { width, height } = photo.size;
  const corners = (found.outline ?? []).map(({ x, y }) => ({ x: x * width, y: y * height }));
  let shared = 0;
  let measuredArea = 0;
  let labelledArea = 0;
  const spans = spansByColumn(labelled.maskRuns ?? [], height);
  for (let column = 0; column < width; column++) {
    const inside = pairs(crossingsOfColumn(corners, column + 0.5));
    const truth = spans.get(column) ?? [];
    measuredArea += lengthOf(inside);
    labelledArea += lengthOf(truth);
    for (const [top, bottom] of inside) {
      for (const [from, to] of truth) shared += Math.max(0, Math.min(bottom, to) - Math.max(top, from));
    }
  }
  return shared / (measuredArea + labelledArea - shared);
}

type Span = readonly [number, number];

function lengthOf(spans: readonly Span[]): number {
  return spans.reduce((sum, [from, to]) => sum + to - from, 0);
}

/** Where the mask's person is in each column: COCO's runs go down the columns, first those outside. */
function spansByColumn(runs: readonly number[], height: number): Map<number, Span[]> {
  const spans = new Map<number, Span[]>();
  let at = 0;
  runs.forEach((run, index) => {
    if (index % 2 === 1) {
      for (let start = at; start < at + run;) {
        const column = Math.floor(start / height);
        const end = Math.min(at + run, (column + 1) * height);
        const list = spans.get(column) ?? [];
        list.push([start - column * height, end - column * height]);
        spans.set(column, list);
        start = end;
      }
    }
    at += run;
  });
  return spans;
}

/** The heights at which the polygon crosses an upright line, from the top. */
function crossingsOfColumn(corners: readonly Point[], x: number): number[] {
  const heights: number[] = [];
  corners.forEach((corner, index) => {
    const next = corners[(index + 1) % corners.length]!;
    if (corner.x <= x === next.x <= x) return;
    heights.push(corner.y + ((x - corner.x) / (next.x - corner.x)) * (next.y - corner.y));
  });
  return heights.sort((a, b) => a - b);
}

function pairs(heights: readonly number[]): Span[] {
  return heights.flatMap((height, index): Span[] => (index % 2 === 0 ? [[height, heights[index + 1]!]] : []));
}
