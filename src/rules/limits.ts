import type { HalfSpace } from '../geometry/half-space.ts';
import { atLeast, atMost } from '../geometry/half-space.ts';
import type { EdgeName, Edges, Point } from '../geometry/shapes.ts';
import type { Figure } from '../people/figure.ts';
import type { Linear } from './rule.ts';

/** Left and right edges run along y; top and bottom along x. */
export function isVertical(edge: EdgeName): boolean {
  return edge === 'left' || edge === 'right';
}

/** Left and top edges begin a crop; right and bottom edges end it. */
export function isBefore(edge: EdgeName): boolean {
  return edge === 'left' || edge === 'top';
}

/** The coordinate that the edge line fixes. */
export function across(edge: EdgeName, point: Point): number {
  return isVertical(edge) ? point.x : point.y;
}

/** The coordinate along the edge line. */
export function along(edge: EdgeName, point: Point): number {
  return isVertical(edge) ? point.y : point.x;
}

/** From where to where a box reaches across the edge line's direction: the range that the edge itself moves through. */
export function rangeAcross(edge: EdgeName, box: Edges): readonly [number, number] {
  return isVertical(edge) ? [box.left, box.right] : [box.top, box.bottom];
}

/** From where to where a box reaches along the edge line. */
export function rangeAlong(edge: EdgeName, box: Edges): readonly [number, number] {
  return isVertical(edge) ? [box.top, box.bottom] : [box.left, box.right];
}

/** The edges that end the given edge's span: left and right for top and bottom, top and bottom for the others. */
export function spanEdges(edge: EdgeName): readonly [EdgeName, EdgeName] {
  return isVertical(edge) ? ['top', 'bottom'] : ['left', 'right'];
}

/** The edge's span does not reach what lies between `from` and `to` along it. */
export function outOfSpan(edge: EdgeName, from: number, to: number): HalfSpace[] {
  const [start, end] = spanEdges(edge);
  return [atLeast(start, to), atMost(end, from)];
}

/** The edge has the whole person on its far side, so that nothing of them is in the crop. */
export function bodyOut(edge: EdgeName, figure: Figure): HalfSpace {
  const { extent } = figure;
  switch (edge) {
    case 'left':
      return atLeast('left', extent.right);
    case 'top':
      return atLeast('top', extent.bottom);
    case 'right':
      return atMost('right', extent.left);
    case 'bottom':
      return atMost('bottom', extent.top);
  }
}

/** The edge keeps clear of what lies between `low` and `high` across it, or its span does not reach it. */
export function clearOf(edge: EdgeName, low: number, high: number, from: number, to: number): HalfSpace[] {
  return [atMost(edge, low), atLeast(edge, high), ...outOfSpan(edge, from, to)];
}

/** A box lies wholly outside the crop. */
export function boxOut(box: Edges): HalfSpace[] {
  return [atLeast('left', box.right), atLeast('top', box.bottom), atMost('right', box.left), atMost('bottom', box.top)];
}

/** How far the edge line lies past `value`, in pixels. */
export function past(edge: EdgeName, value: number): Linear {
  return {
    left: edge === 'left' ? 1 : 0,
    top: edge === 'top' ? 1 : 0,
    right: edge === 'right' ? 1 : 0,
    bottom: edge === 'bottom' ? 1 : 0,
    constant: -value,
  };
}

export function pixels(value: number): Linear {
  return { constant: value };
}

/** The crop's height. */
export const CROP_HEIGHT: Linear = { bottom: 1, top: -1, constant: 0 };
export const CROP_WIDTH: Linear = { right: 1, left: -1, constant: 0 };

export function valueOf(linear: Linear, edges: Edges): number {
  return (
    (linear.left ?? 0) * edges.left +
    (linear.top ?? 0) * edges.top +
    (linear.right ?? 0) * edges.right +
    (linear.bottom ?? 0) * edges.bottom +
    linear.constant
  );
}

/** The condition `linear ≤ 0`. */
export function notPositive(linear: Linear): HalfSpace {
  return {
    left: linear.left ?? 0,
    top: linear.top ?? 0,
    right: linear.right ?? 0,
    bottom: linear.bottom ?? 0,
    atMost: -linear.constant,
  };
}

/** `a − factor·b` as a linear expression. */
export function minus(a: Linear, b: Linear, factor = 1): Linear {
  return {
    left: (a.left ?? 0) - factor * (b.left ?? 0),
    top: (a.top ?? 0) - factor * (b.top ?? 0),
    right: (a.right ?? 0) - factor * (b.right ?? 0),
    bottom: (a.bottom ?? 0) - factor * (b.bottom ?? 0),
    constant: a.constant - factor * b.constant,
  };
}

/** The expression with its sign turned. */
export function negative(linear: Linear): Linear {
  return minus(pixels(0), linear);
}
