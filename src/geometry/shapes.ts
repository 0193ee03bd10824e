/** A width and a height, in pixels. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** x to the right, y down. Unit and frame are said by whoever uses it. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A crop as the manifest writes it: fractions of the photo's width and height, in the turned picture. */
export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** The four edge lines of an upright rectangle, in pixels of the turned picture. */
export interface Edges {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export const EDGE_NAMES = ['left', 'top', 'right', 'bottom'] as const;
export type EdgeName = (typeof EDGE_NAMES)[number];

/** The edge lines of a crop given in fractions of `photo`, in pixels. */
export function edgesOf(rectangle: Rectangle, photo: Size): Edges {
  return {
    left: rectangle.x * photo.width,
    top: rectangle.y * photo.height,
    right: (rectangle.x + rectangle.w) * photo.width,
    bottom: (rectangle.y + rectangle.h) * photo.height,
  };
}

/** The crop in fractions of `photo` whose edge lines are `edges` (pixels). Not rounded. */
export function rectangleOf(edges: Edges, photo: Size): Rectangle {
  return {
    x: edges.left / photo.width,
    y: edges.top / photo.height,
    w: (edges.right - edges.left) / photo.width,
    h: (edges.bottom - edges.top) / photo.height,
  };
}

export function widthOf(edges: Edges): number {
  return edges.right - edges.left;
}

export function heightOf(edges: Edges): number {
  return edges.bottom - edges.top;
}

export function shortSideOf(edges: Edges): number {
  return Math.min(widthOf(edges), heightOf(edges));
}

export function diagonalOf(size: Size): number {
  return Math.hypot(size.width, size.height);
}

/** In fractions of the photo. */
export const WHOLE_PHOTO: Rectangle = { x: 0, y: 0, w: 1, h: 1 };
