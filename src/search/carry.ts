import type { Edges, Rectangle } from '../geometry/shapes.ts';
import { heightOf } from '../geometry/shapes.ts';
import type { Figure } from '../people/figure.ts';
import { kneeLine } from '../people/knee-line.ts';
import { foundLength } from '../people/length-spans.ts';
import type { Configuration } from '../rules/configuration.ts';
import type { Scene } from '../rules/scene.ts';
import { withCrop } from '../rules/scene.ts';
import { nearestCrop } from './nearest.ts';
import type { SearchOptions } from './options.ts';
import { problemOf } from './problem.ts';
import { whyNoCrop } from './reasons.ts';

/** A crop that was carried to another photo, as the manifest writes it; or why that photo cannot take it. */
export type Carried = { readonly crop: Rectangle } | { readonly reason: string };

/**
 * The crop of `from` on the people of `to`: the same gap over the highest head, the same place on the body for the lower
 * edge, the same room beside the people. Then moved by as little as it takes to break nothing, at the same length.
 * @param to what its own crop is does not matter, only its photo, people and shape
 */
export function carryCrop(from: Scene, to: Scene, configuration: Configuration, options: SearchOptions = {}): Carried {
  if (from.counted.length !== to.counted.length) {
    return { reason: `${peopleCount(to.counted.length)} here, and ${peopleCount(from.counted.length)} there` };
  }
  const edges = carriedEdges(from, to);
  if (!edges || !from.tallest) return { reason: 'nobody is there to carry the crop by' };
  const length = foundLength(from.tallest, from.crop);
  const asked: SearchOptions = { ...options, tightest: length, widest: length };
  const scene = withCrop(to, edges);
  const answer = nearestCrop(scene, configuration, asked);
  if (!answer) return { reason: whyNoCrop(problemOf(scene, configuration, asked, 0)) ?? 'there is no such crop' };
  const [broken] = answer.broken;
  return broken ? { reason: `${broken.rule} would stay: ${broken.reason()}` } : { crop: answer.crop };
}

/** As `aspect` has it. */
const SHAPE_SLACK = 0.005;

function peopleCount(count: number): string {
  return count === 1 ? 'one person counts' : `${count} people count`;
}

/**
 * The edge lines that the crop of `from` has on the people of `to`, in pixels of its turned picture; they may lie outside
 * the photo. Undefined when nobody counts in one of them.
 */
export function carriedEdges(from: Scene, to: Scene): Edges | undefined {
  const here = bodyOf(from);
  const there = bodyOf(to);
  if (!here || !there) return undefined;
  const { crop } = from;
  const bottom = alongBody(here.lines, there.lines, crop.bottom);
  const gap = (here.highest - crop.top) / heightOf(crop);
  const isOverHead = gap >= 0 && gap < 1;
  const top = isOverHead
    ? there.highest - (gap * (bottom - there.highest)) / (1 - gap)
    : there.highest + alongBody(here.lines, there.lines, crop.top) - alongBody(here.lines, there.lines, here.highest);
  const scale = there.scale / here.scale;
  const left = there.left - scale * (here.left - crop.left);
  const right = there.right + scale * (crop.right - here.right);
  // A written crop has its shape up to rounding: one that has it stays as it is.
  const isOfShape = to.shape === undefined || Math.abs((right - left) / (to.shape * (bottom - top)) - 1) <= SHAPE_SLACK;
  if (isOfShape) return { left, top, right, bottom };
  const middle = (left + right) / 2;
  const half = (to.shape * (bottom - top)) / 2;
  return { left: middle - half, top, right: middle + half, bottom };
}

/** What a crop is carried by. Pixels of the turned picture. */
interface Body {
  /** Heights on the person by whom the length goes, from the top of the head to the sole, in order. */
  readonly lines: readonly number[];
  /** Height of that person. */
  readonly scale: number;
  /** The highest head of those who count. */
  readonly highest: number;
  /** The sides of those who count. */
  readonly left: number;
  readonly right: number;
}

function bodyOf({ tallest, counted }: Scene): Body | undefined {
  if (!tallest || tallest.height <= 0) return undefined;
  const { shoulder, eyes, hip, ankle, sole } = tallest.lines;
  const headTop = Math.min(headTopOf(tallest), eyes);
  return {
    lines: [headTop, eyes, shoulder, hip, kneeLine(tallest), ankle, sole],
    scale: tallest.height,
    highest: Math.min(...counted.map(headTopOf)),
    left: Math.min(...counted.map(({ extent }) => extent.left)),
    right: Math.max(...counted.map(({ extent }) => extent.right)),
  };
}

function headTopOf({ headTop, lines }: Figure): number {
  return headTop?.y ?? lines.headTop;
}

/** A height on one body as the height at the same share of the same part of another; beyond the body, by its scale. */
function alongBody(from: readonly number[], to: readonly number[], y: number): number {
  const last = from.length - 1;
  const scale = (to[last]! - to[0]!) / (from[last]! - from[0]!);
  if (y <= from[0]!) return to[0]! + scale * (y - from[0]!);
  if (y >= from[last]!) return to[last]! + scale * (y - from[last]!);
  const part = from.findLastIndex((line) => line <= y);
  const share = (y - from[part]!) / (from[part + 1]! - from[part]!);
  return to[part]! + share * (to[part + 1]! - to[part]!);
}
