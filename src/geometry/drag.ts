import { insidePhoto, isInsidePhoto } from './crop.ts';
import { excess } from './half-space.ts';
import type { EdgeName, Edges, Point, Size } from './shapes.ts';
import { EDGE_NAMES, heightOf, widthOf } from './shapes.ts';

/** What of a crop is taken hold of: edges (one, or the two of a corner), or all four for the whole. */
export type Hold = readonly EdgeName[];

export const WHOLE: Hold = EDGE_NAMES;

export interface DragOptions {
  readonly photo: Size;
  readonly degrees: number;
  /** Width over height to keep; undefined to let each edge go alone. */
  readonly shape: number | undefined;
}

/** A crop never gets smaller than this, in pixels of the photo. */
const SMALLEST = 16;
const HALVINGS = 24;
/** Pixels that numbers with a point are wrong by. */
const NOISE = 1e-6;

/**
 * The crop after what is held was moved, in pixels of the turned picture. It stays in the photo as far as it was in it,
 * sliding along the photo's edges when the whole is moved, and keeps the shape that is asked for around what is not held.
 */
export function drag(edges: Edges, hold: Hold, by: Point, options: DragOptions): Edges {
  if (hold.length === 4) {
    const aside = furthest(edges, (share) => moved(edges, { x: by.x * share, y: 0 }), options);
    return furthest(aside, (share) => moved(aside, { x: 0, y: by.y * share }), options);
  }
  return furthest(edges, (share) => resized(edges, hold, { x: by.x * share, y: by.y * share }, options.shape), options);
}

/**
 * Goes as far as the photo allows: the crops that lie in it are convex, so that halving finds the last of them. A crop that
 * is written with four decimals may lie a little outside; it comes no further.
 */
function furthest(from: Edges, at: (share: number) => Edges, { photo, degrees }: DragOptions): Edges {
  const bounds = insidePhoto(photo, degrees).map((side) => ({ side, most: Math.max(NOISE, excess(side, from)) }));
  const fits = (edges: Edges): boolean => bounds.every(({ side, most }) => excess(side, edges) <= most);
  const whole = at(1);
  if (fits(whole) || !isInsidePhoto(from, photo, degrees)) return whole;
  let low = 0;
  let high = 1;
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2;
    if (fits(at(middle))) low = middle;
    else high = middle;
  }
  return at(low);
}

function moved({ left, top, right, bottom }: Edges, { x, y }: Point): Edges {
  return { left: left + x, top: top + y, right: right + x, bottom: bottom + y };
}

function resized(edges: Edges, hold: Hold, by: Point, shape: number | undefined): Edges {
  const held = (name: EdgeName): boolean => hold.includes(name);
  const growX = held('left') ? -by.x : held('right') ? by.x : 0;
  const growY = held('top') ? -by.y : held('bottom') ? by.y : 0;
  let width = Math.max(SMALLEST, widthOf(edges) + growX);
  let height = Math.max(SMALLEST, heightOf(edges) + growY);
  if (shape !== undefined) {
    const isAcross = held('left') || held('right');
    const isDown = held('top') || held('bottom');
    const fromWidth = isAcross && (!isDown || Math.abs(growX) >= Math.abs(growY) * shape);
    if (fromWidth) height = width / shape;
    else width = height * shape;
  }
  const centreX = (edges.left + edges.right) / 2;
  const centreY = (edges.top + edges.bottom) / 2;
  const left = held('left')
    ? edges.right - width
    : held('right') || shape === undefined
      ? edges.left
      : centreX - width / 2;
  const top = held('top')
    ? edges.bottom - height
    : held('bottom') || shape === undefined
      ? edges.top
      : centreY - height / 2;
  return { left, top, right: left + width, bottom: top + height };
}
