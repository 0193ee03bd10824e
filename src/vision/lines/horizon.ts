import type { Size } from '../../geometry/shapes.ts';
import type { Person } from '../../people/person.ts';
import { follow, heightAt, likelyLines, type FollowedLine, type LevelLine } from './horizon-line.ts';
import type { Cover, Plane } from './plane.ts';
import { ramp } from './ramp.ts';
import { stepsOfColumns } from './sky-steps.ts';

/** The line between a lighter, even sky and what is darker below it. */
export interface Horizon {
  /** Radians, clockwise as seen. */
  readonly lean: number;
  /** One standard deviation of `lean`, as far as the pixels say. */
  readonly error: number;
  /** At the picture's middle, as a fraction of its height. */
  readonly y: number;
  /** How much the line looks like a horizon, 0 to 1. */
  readonly trust: number;
}

/** A hip that is placed worse than this tells nothing. */
const LEAST_CONFIDENCE = 0.3;
/** Parts of the width that are asked one by one whether the line is seen there. */
const PARTS = 8;
/** Changes in lightness over four pixels that an even sky does not have. */
const UNEVEN = 4;
/** Bands beside the line, nearest and farthest row, as shares of the longer edge: a rail is the same above and below. */
const BESIDE = [0.012, 0.05] as const;

/** The line that most looks like a horizon; undefined when none does. */
export function findHorizon(plane: Plane, cover: Cover, people: readonly Person[]): Horizon | undefined {
  const columns = stepsOfColumns(plane, cover);
  let best: Horizon | undefined;
  for (const start of likelyLines(columns, plane)) {
    const line = follow(start, columns, plane);
    if (line === undefined || isBelowHips(line, people, plane)) continue;
    const trust = trustIn(line, plane, cover);
    if (trust <= (best?.trust ?? 0)) continue;
    const error = line.slopeError / (1 + line.slope ** 2);
    best = { lean: Math.atan(line.slope), error, y: line.y / plane.height, trust };
  }
  return best;
}

/** The horizon is as high as the camera; where a wall or a stage meets its floor is lower. */
function isBelowHips(line: LevelLine, people: readonly Person[], size: Size): boolean {
  return people.some(({ points }) => {
    return [points.left_hip, points.right_hip].some((hip) => {
      if (hip === undefined || hip.confidence < LEAST_CONFIDENCE || hip.y > 1) return false;
      return heightAt(line, hip.x * size.width, size) > hip.y * size.height;
    });
  });
}

/** Seen in most columns and parts of the width, straight, under an even sky, with something darker below. */
function trustIn(line: FollowedLine, plane: Plane, cover: Cover): number {
  const { seen, free, scatter } = line;
  const share = seen.length / free.length;
  const span = (seen.at(-1)!.x - seen[0]!.x) / plane.width;
  const freeSpan = (free.at(-1)! - free[0]!) / plane.width;
  const contrast = seen.reduce((sum, { size }) => sum + size, 0) / seen.length;
  const beside = seen.reduce((sum, { x, y }) => sum + stepBeside(plane, cover, x, y), 0) / seen.length;
  return (
    Math.sqrt(ramp(share, 0.6, 0.85) * ramp(partsSeen(line, plane.width), 1, 4)) *
    ramp(span, 0.3, 0.5) *
    ramp(span / freeSpan, 0.5, 0.7) *
    ramp(bendOf(line, plane), 0.4, 0.2) *
    ramp(scatter, 1.1, 0.8) *
    ramp(evenShareAbove(line, plane, cover), 0.93, 0.97) *
    ramp(beside / contrast, 0.3, 0.6) *
    ramp(beside, 3, 6)
  );
}

/** The number of parts of the width in which the line is seen in most columns. */
function partsSeen({ seen, free }: FollowedLine, width: number): number {
  const inPart = (places: readonly number[], part: number): number =>
    places.filter((x) => Math.floor((x / width) * PARTS) === part).length;
  const seenAt = seen.map(({ x }) => x);
  let count = 0;
  for (let part = 0; part < PARTS; part++) {
    const all = inPart(free, part);
    if (all > width / PARTS / 5 && inPart(seenAt, part) > 0.6 * all) count++;
  }
  return count;
}

/** How far the parts of the line are from being straight together: the root mean square over the parts, in pixels. */
function bendOf(line: FollowedLine, size: Size): number {
  const sums = new Float32Array(PARTS);
  const counts = new Float32Array(PARTS);
  for (const { x, y } of line.seen) {
    const part = Math.floor((x / size.width) * PARTS);
    sums[part]! += y - heightAt(line, x, size);
    counts[part]! += 1;
  }
  let squares = 0;
  for (let part = 0; part < PARTS; part++) if (counts[part]! > 0) squares += sums[part]! ** 2 / counts[part]!;
  return Math.sqrt(squares / line.seen.length);
}

/** The share of the free places above the line at which the picture hardly changes. */
function evenShareAbove(line: LevelLine, plane: Plane, cover: Cover): number {
  const { width, height, data } = plane;
  let even = 0;
  let all = 0;
  for (let x = 2; x < width - 2; x += 2) {
    const end = Math.min(height - 3, Math.floor(heightAt(line, x + 0.5, plane)) - 4);
    for (let y = 2; y < end; y += 2) {
      const at = y * width + x;
      if (cover.data[at]! > 0) continue;
      all++;
      if (changeAt(data, at, width, 1) < UNEVEN && changeAt(data, at, 1, width) < UNEVEN) even++;
    }
  }
  return all === 0 ? 0 : even / all;
}

/** How much the picture changes over four pixels in one direction, three pixels wide. */
function changeAt(data: Float32Array, at: number, step: number, side: number): number {
  const across = (from: number): number => data[from + 2 * step]! - data[from - 2 * step]!;
  return Math.abs(across(at - side) + across(at) + across(at + side)) / 3;
}

/** How much lighter the picture is some way above a place than some way below it. */
function stepBeside(plane: Plane, cover: Cover, x: number, y: number): number {
  const longEdge = Math.max(plane.width, plane.height);
  const [near, far] = BESIDE.map((share) => Math.round(share * longEdge));
  const meanOf = (from: number, to: number): number | undefined => {
    let sum = 0;
    let count = 0;
    for (let row = Math.max(0, from); row < Math.min(plane.height, to); row++) {
      const at = row * plane.width + Math.floor(x);
      if (cover.data[at] !== 0) continue;
      sum += plane.data[at]!;
      count++;
    }
    return count === 0 ? undefined : sum / count;
  };
  const middle = Math.round(y);
  const above = meanOf(middle - far! + 1, middle - near! + 1);
  const below = meanOf(middle + near!, middle + far!);
  return above === undefined || below === undefined ? 0 : above - below;
}
