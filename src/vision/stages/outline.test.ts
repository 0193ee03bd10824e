import { expect, it } from 'vitest';
import { boxAround } from '../../geometry/points.ts';
import { traceOutline } from './outline.ts';

const SIDE = 64;
const GRID = {
  origin: { x: 100, y: 200 },
  across: { x: 10, y: 0 },
  down: { x: 0, y: 10 },
  width: SIDE,
  height: SIDE,
};

/** A mask that is 1 in the first box and 0 in the others; left, top, right, bottom in cells. */
function maskOf(full: readonly number[], ...empty: (readonly number[])[]) {
  const isIn = ([left, top, right, bottom]: readonly number[], x: number, y: number) =>
    x >= left! && x < right! && y >= top! && y < bottom!;
  const coverage = Float32Array.from({ length: SIDE * SIDE }, (_, index) => {
    const [x, y] = [index % SIDE, Math.floor(index / SIDE)];
    return isIn(full, x, y) && !empty.some((box) => isIn(box, x, y)) ? 1 : 0;
  });
  return { grid: GRID, coverage };
}

const PHOTO = { width: 2000, height: 2000 };

it('traces the outline and the gaps in it, the largest first, in pixels of the photo', () => {
  const mask = maskOf([10, 10, 50, 60], [20, 20, 30, 40], [35, 20, 42, 30]);
  const { outline, gaps } = traceOutline(mask, PHOTO);
  expect(boxAround(outline)).toEqual({ left: 200, top: 300, right: 600, bottom: 800 });
  expect(gaps.map(boxAround)).toEqual([
    { left: 300, top: 400, right: 400, bottom: 600 },
    { left: 450, top: 400, right: 520, bottom: 500 },
  ]);
});

it('takes no speck for a gap, and nothing beside the person', () => {
  const specks = maskOf([10, 10, 50, 60], [20, 20, 24, 24]);
  expect(traceOutline(specks, PHOTO).gaps).toEqual([]);
  const apart = maskOf([10, 10, 60, 60], [40, 10, 44, 60]);
  expect(traceOutline(apart, PHOTO).gaps).toEqual([]);
});

it('has nothing without a mask', () => {
  expect(traceOutline(undefined, PHOTO)).toEqual({ outline: [], gaps: [] });
});
