import { medianOf, type Cover, type Plane } from './plane.ts';

/** Where a column of the picture gets darker on the way down. Pixels of the plane. */
export interface ColumnSteps {
  /** Of the column's middle. */
  readonly x: number;
  readonly steps: readonly { readonly y: number; readonly size: number }[];
  /** Down to here the column is free of people. */
  readonly end: number;
}

/** The bands above and below that are held against each other, as a share of the longer edge. */
const BAND = 0.0075;
/** Smaller steps in lightness are noise; in a grainy sky so many times the usual ones are. */
const LEAST_STEP = 1.2;
const OVER_USUAL = 2.5;
/** What is usual is seen in the upper rows of every few columns. */
const UPPER_ROWS = 0.15;
const EVERY_COLUMN = 7;
/** The horizon is among the first steps under the sky. */
const MOST_STEPS = 8;

/** The first steps from light to dark of every column, from the top down to where somebody is. */
export function stepsOfColumns(plane: Plane, cover: Cover): ColumnSteps[] {
  const band = Math.max(2, Math.round(BAND * Math.max(plane.width, plane.height)));
  const columns: ColumnSteps[] = [];
  const sizes = new Float32Array(plane.height + 1);
  const least = Math.max(LEAST_STEP, OVER_USUAL * usualStep(plane, cover, band, sizes));
  for (let x = 1; x < plane.width - 1; x++) {
    const end = freeRows(cover, x);
    measureSteps(plane, x, band, end, sizes);
    columns.push({ x: x + 0.5, steps: largestSteps(sizes, band, end, least), end: end - band });
  }
  return columns;
}

/** The median size of what is a step or grain, high up. */
function usualStep(plane: Plane, cover: Cover, band: number, sizes: Float32Array): number {
  const usual: number[] = [];
  for (let x = 1; x < plane.width - 1; x += EVERY_COLUMN) {
    const end = Math.min(freeRows(cover, x), Math.ceil(UPPER_ROWS * plane.height) + 2 * band);
    measureSteps(plane, x, band, end, sizes);
    for (let y = band; y <= end - band; y++) usual.push(Math.abs(sizes[y]!));
  }
  return medianOf(usual);
}

function freeRows({ width, height, data }: Cover, x: number): number {
  let y = 0;
  while (y < height && data[y * width + x] === 0) y++;
  return y;
}

/** How much lighter the band above each row's upper edge is than the one below it, over three columns. */
function measureSteps({ width, data }: Plane, x: number, band: number, end: number, sizes: Float32Array): void {
  sizes.fill(0);
  if (end < 2 * band) return;
  const rowAt = (y: number): number => {
    const at = y * width + x;
    return data[at - 1]! + data[at]! + data[at + 1]!;
  };
  let above = 0;
  let below = 0;
  for (let row = 0; row < band; row++) {
    above += rowAt(row);
    below += rowAt(band + row);
  }
  for (let y = band; ; y++) {
    sizes[y] = (above - below) / (3 * band);
    if (y + band >= end) return;
    const middle = rowAt(y);
    above += middle - rowAt(y - band);
    below += rowAt(y + band) - middle;
  }
}

function largestSteps(sizes: Float32Array, band: number, end: number, least: number): ColumnSteps['steps'] {
  const steps: { y: number; size: number }[] = [];
  for (let y = band + 1; y < end - band && steps.length < MOST_STEPS; y++) {
    const size = sizes[y]!;
    if (size < least || !isLargest(sizes, y, band)) continue;
    const before = sizes[y - 1]!;
    const after = sizes[y + 1]!;
    const bend = before - 2 * size + after;
    steps.push({ y: bend < 0 ? y + (0.5 * (before - after)) / bend : y, size });
  }
  return steps;
}

function isLargest(sizes: Float32Array, y: number, band: number): boolean {
  const size = sizes[y]!;
  for (let other = y - band; other <= y + band; other++) {
    if (sizes[other]! > size || (sizes[other] === size && other > y)) return false;
  }
  return true;
}
