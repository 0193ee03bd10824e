import type { Size } from '../../geometry/shapes.ts';
import { DEGREE, MOST_LEAN } from './fan-shape.ts';
import type { ColumnSteps } from './sky-steps.ts';

/** A straight line across the picture: at its middle column at height `y`, `slope` down a pixel to the right. Plane pixels. */
export interface LevelLine {
  readonly y: number;
  readonly slope: number;
}

/** A line and the steps that lie on it. */
export interface FollowedLine extends LevelLine {
  readonly seen: readonly { readonly x: number; readonly y: number; readonly size: number }[];
  /** Of all columns that are free of people down to the line, the places. */
  readonly free: readonly number[];
  /** How far the steps are from the line, root mean square. */
  readonly scatter: number;
  /** Of the slope, one standard deviation. */
  readonly slopeError: number;
}

const LEAN_STEP = 0.25 * DEGREE;
/** Lines that are held for possible: the best, this far apart (of the height). */
const MOST_LINES = 6;
const APART = 0.02;
/** Fewer columns than this, as a share, tell nothing. */
const LEAST_FREE = 0.12;
/** The share of free columns that must have a step at the line. */
const LEAST_SHARE = 0.35;
/** A step belongs to a line when it is so near, as a share of the longer edge. */
const NEAR = 0.004;
const FEWEST_STEPS = 12;
/** Neighbouring steps err together, so they count as fewer. */
const TOGETHER = 8;
const LEAST_SCATTER = 0.2;

/** Where a column meets the line. */
export function heightAt({ y, slope }: LevelLine, x: number, { width }: Size): number {
  return y + slope * (x - width / 2);
}

/** The lines on which the most columns step down (Hough's transform of the steps). */
export function likelyLines(columns: readonly ColumnSteps[], size: Size): LevelLine[] {
  const all: (LevelLine & { score: number })[] = [];
  const leans = Math.round(MOST_LEAN / LEAN_STEP);
  const places = placesOf(columns, size);
  for (let lean = -leans; lean <= leans; lean++) {
    const slope = Math.tan(lean * LEAN_STEP);
    const scores = scoresOf(places, slope, size);
    for (let y = 0; y < scores.length; y++) {
      const score = scores[y]!;
      if (score > LEAST_SHARE) all.push({ y, slope, score });
    }
  }
  all.sort((first, second) => second.score - first.score);
  const best: LevelLine[] = [];
  for (const line of all) {
    if (best.length === MOST_LINES) break;
    if (best.every(({ y }) => Math.abs(y - line.y) > APART * size.height)) best.push(line);
  }
  return best;
}

/** All steps of all columns, and where each column is free down to: numbers side by side are quicker to go through. */
interface StepPlaces {
  /** How far right of the picture's middle each step is. */
  readonly across: Float64Array;
  readonly y: Float64Array;
  /** How far right of the picture's middle each column is. */
  readonly columns: Float64Array;
  readonly ends: Float64Array;
}

function placesOf(columns: readonly ColumnSteps[], { width }: Size): StepPlaces {
  return {
    across: Float64Array.from(columns.flatMap(({ x, steps }) => steps.map(() => x - width / 2))),
    y: Float64Array.from(columns.flatMap(({ steps }) => steps.map(({ y }) => y))),
    columns: Float64Array.from(columns, ({ x }) => x - width / 2),
    ends: Float64Array.from(columns, ({ end }) => end),
  };
}

/** For each height the share of free columns that step down on a line of this slope, give or take a pixel. */
function scoresOf(places: StepPlaces, slope: number, { width, height }: Size): Float32Array {
  const votes = votesOf(places, slope, height);
  const ends = new Float32Array(height + 1);
  for (let column = 0; column < places.ends.length; column++) {
    const end = Math.floor(places.ends[column]! - slope * places.columns[column]!);
    ends[Math.max(0, Math.min(height, end))]! += 1;
  }
  const scores = new Float32Array(height);
  let free = 0;
  for (let y = height - 1; y >= 1; y--) {
    free += ends[y + 1]!;
    if (free < LEAST_FREE * width) continue;
    scores[y] = (votes[y - 1]! + votes[y]! + votes[y + 1]!) / (free + 0.05 * width);
  }
  return scores;
}

/** For each height the steps on a line of this slope; one between two heights is shared. */
function votesOf({ across, y }: StepPlaces, slope: number, height: number): Float32Array {
  const votes = new Float32Array(height + 2);
  for (let step = 0; step < y.length; step++) {
    const place = y[step]! - slope * across[step]!;
    const at = Math.floor(place);
    if (at < 0 || at >= height) continue;
    const part = place - at;
    votes[at]! += 1 - part;
    votes[at + 1]! += part;
  }
  return votes;
}

/** The line moved to where the steps near it are; undefined when there are too few. */
export function follow(start: LevelLine, columns: readonly ColumnSteps[], size: Size): FollowedLine | undefined {
  const near = Math.max(1, NEAR * Math.max(size.width, size.height));
  let line = start;
  for (const reach of [2.5 * near, 2.5 * near, near, near, near, near]) {
    const { seen } = stepsNear(line, columns, reach, size);
    if (seen.length < FEWEST_STEPS) return undefined;
    for (let round = 0; round < 3; round++) line = lineThrough(seen, line, near / 2, size);
  }
  const { seen, free } = stepsNear(line, columns, near, size);
  if (seen.length < FEWEST_STEPS) return undefined;
  const middle = seen.reduce((sum, { x }) => sum + x, 0) / seen.length;
  const spread = seen.reduce((sum, { x }) => sum + (x - middle) ** 2, 0);
  const squares = seen.reduce((sum, { x, y }) => sum + (y - heightAt(line, x, size)) ** 2, 0);
  const scatter = Math.max(LEAST_SCATTER, Math.sqrt(squares / seen.length));
  return { ...line, seen, free, scatter, slopeError: scatter * Math.sqrt(TOGETHER / spread) };
}

function stepsNear(
  line: LevelLine,
  columns: readonly ColumnSteps[],
  reach: number,
  size: Size,
): Pick<FollowedLine, 'seen' | 'free'> {
  const seen: { x: number; y: number; size: number }[] = [];
  const free: number[] = [];
  for (const { x, steps, end } of columns) {
    const height = heightAt(line, x, size);
    if (height < 1 || height > end) continue;
    free.push(x);
    let nearest: { y: number; size: number } | undefined;
    for (const step of steps) {
      const distance = Math.abs(step.y - height);
      if (distance < reach && (nearest === undefined || distance < Math.abs(nearest.y - height))) nearest = step;
    }
    if (nearest) seen.push({ x, y: nearest.y, size: nearest.size });
  }
  return { seen, free };
}

/** Weighted least squares; steps farther away than `usual` count less and less. */
function lineThrough(seen: FollowedLine['seen'], line: LevelLine, usual: number, size: Size): LevelLine {
  let total = 0;
  let sumX = 0;
  let sumY = 0;
  let sumXX = 0;
  let sumXY = 0;
  for (const { x, y } of seen) {
    const weight = 1 / (1 + ((y - heightAt(line, x, size)) / usual) ** 2);
    const across = x - size.width / 2;
    total += weight;
    sumX += weight * across;
    sumY += weight * y;
    sumXX += weight * across ** 2;
    sumXY += weight * across * y;
  }
  const slope = (total * sumXY - sumX * sumY) / (total * sumXX - sumX ** 2);
  return { slope, y: (sumY - slope * sumX) / total };
}
