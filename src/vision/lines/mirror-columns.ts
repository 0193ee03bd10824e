import type { Size } from '../../geometry/shapes.ts';
import { transposed, type Cover, type Plane } from './plane.ts';
import { slopesOf } from './slopes.ts';

/**
 * A picture's columns, to be held against each other: each is compared with a hundred others, so what can be known of
 * one alone is calculated once.
 */
export interface Columns extends Size {
  /** The slopes of each column from the top down, one column after the other; 0 on people. */
  readonly across: Float32Array;
  readonly down: Float32Array;
  /** How much structure each column has above each row, and in all. */
  readonly structureAbove: readonly Float64Array[];
  /** How much structure the whole picture has. */
  readonly structure: number;
  /** Where people are in each column. */
  readonly people: readonly (readonly Rows[])[];
}

interface Rows {
  readonly from: number;
  /** The first one after. */
  readonly to: number;
}

export function columnsOf(plane: Plane, cover: Cover): Columns {
  const { width, height } = plane;
  const slopes = slopesOf(plane, cover);
  const across = transposed({ width, height, data: slopes.across }).data;
  const down = transposed({ width, height, data: slopes.down }).data;
  const structureAbove = Array.from({ length: width }, (_, column) => {
    const sums = new Float64Array(height + 1);
    for (let row = 0, at = column * height; row < height; row++, at++) {
      sums[row + 1] = sums[row]! + across[at]! * across[at]! + down[at]! * down[at]!;
    }
    return sums;
  });
  const people = Array.from({ length: width }, (_, column) => coveredRows(cover, column));
  const structure = structureAbove.reduce((sum, above) => sum + above[height]!, 0);
  return { width, height, across, down, structureAbove, structure, people };
}

function coveredRows({ width, height, data }: Cover, column: number): Rows[] {
  const rows: Rows[] = [];
  let from: number | undefined;
  for (let row = 0; row <= height; row++) {
    const isCovered = row < height && data[row * width + column] === 1;
    if (isCovered) from ??= row;
    else if (from !== undefined) {
      rows.push({ from, to: row });
      from = undefined;
    }
  }
  return rows;
}

/** The mean structure of two columns where both are free of people. */
export function structureOfPair(columns: Columns, left: number, right: number): number {
  return (structureBeside(columns, left, right) + structureBeside(columns, right, left)) / 2;
}

/** The structure of a column in rows in which another one is free of people. */
function structureBeside({ structureAbove, people, height }: Columns, column: number, other: number): number {
  const above = structureAbove[column]!;
  let sum = above[height]!;
  for (const { from, to } of people[other]!) sum -= above[to]! - above[from]!;
  return sum;
}

/** How alike a column is to the mirror image of another one: as much as their structure when it is the same. */
export function alikeInMirror({ across, down, height }: Columns, left: number, right: number): number {
  let alikeDown = 0;
  let alikeAcross = 0;
  const end = (left + 1) * height;
  for (let a = left * height, b = right * height; a < end; a++, b++) {
    alikeDown += down[a]! * down[b]!;
    // What rises to the right rises to the left in a mirror.
    alikeAcross += across[a]! * across[b]!;
  }
  return alikeDown - alikeAcross;
}
