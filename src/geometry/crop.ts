import type { HalfSpace } from './half-space.ts';
import { atLeast, atMost, excess, onTwoEdges } from './half-space.ts';
import type { Edges, Rectangle, Size } from './shapes.ts';
import { edgesOf, rectangleOf } from './shapes.ts';

/** How far a corner may lie outside the photo, in pixels: a crop is written with four decimals. */
export const CORNER_TOLERANCE = 0.5;
/** An edge this near to the photo's own edge (a fraction of the photo's side) is the photo's edge. */
export const PHOTO_EDGE = 0.001;
const DECIMALS = 10_000;
const FLOAT_NOISE = 1e-7;

/** The crop as it is written: four decimals, rounded inward so that it never grows. */
export function roundCrop(crop: Rectangle): Rectangle {
  const up = (value: number) => Math.ceil(value * DECIMALS - FLOAT_NOISE * DECIMALS);
  const down = (value: number) => Math.floor(value * DECIMALS + FLOAT_NOISE * DECIMALS);
  const left = up(crop.x);
  const top = up(crop.y);
  const right = down(crop.x + crop.w);
  const bottom = down(crop.y + crop.h);
  const clean = (ticks: number) => (ticks === 0 ? 0 : ticks / DECIMALS);
  return { x: clean(left), y: clean(top), w: clean(right - left), h: clean(bottom - top) };
}

/**
 * The conditions on a crop's edge lines (pixels of the turned picture) under which its four corners lie in the photo
 * that was turned by `degrees`.
 */
export function insidePhoto(photo: Size, degrees: number): HalfSpace[] {
  if (degrees === 0) return insideUnturned(photo);
  const radians = (degrees * Math.PI) / 180;
  const cosine = Math.cos(radians);
  const sine = Math.sin(radians);
  const centreX = photo.width / 2;
  const centreY = photo.height / 2;
  const conditions: HalfSpace[] = [];
  const corners = [
    ['left', 'top'],
    ['right', 'top'],
    ['left', 'bottom'],
    ['right', 'bottom'],
  ] as const;
  for (const [sideX, sideY] of corners) {
    // In the photo, the corner lies at centre + (dx·cos + dy·sin, −dx·sin + dy·cos).
    const add = (x: number, y: number, bound: number) => {
      conditions.push(onTwoEdges(sideX, x, sideY, y, bound + x * centreX + y * centreY));
    };
    add(cosine, sine, photo.width / 2);
    add(-cosine, -sine, photo.width / 2);
    add(-sine, cosine, photo.height / 2);
    add(sine, -cosine, photo.height / 2);
  }
  return conditions;
}

/** Unturned, each edge line has the photo's own edge as its bound. */
function insideUnturned({ width, height }: Size): HalfSpace[] {
  return [atLeast('left', 0), atLeast('top', 0), atMost('right', width), atMost('bottom', height)];
}

/** Whether all four corners lie in the photo, within `CORNER_TOLERANCE`. */
export function isInsidePhoto(edges: Edges, photo: Size, degrees: number): boolean {
  return insidePhoto(photo, degrees).every((condition) => excess(condition, edges) <= CORNER_TOLERANCE);
}

/** The largest upright rectangle of `shape` (width over height) centred in the turned photo, in pixels. */
export function largestCentred(photo: Size, degrees: number, shape: number): Edges {
  const radians = (Math.abs(degrees) * Math.PI) / 180;
  const cosine = Math.cos(radians);
  const sine = Math.sin(radians);
  // The corner (w/2, h/2), turned back, must stay within the photo's half sides.
  const height = Math.min(photo.width / (shape * cosine + sine), photo.height / (shape * sine + cosine));
  const width = height * shape;
  return {
    left: (photo.width - width) / 2,
    top: (photo.height - height) / 2,
    right: (photo.width + width) / 2,
    bottom: (photo.height + height) / 2,
  };
}

/** The crop that a frame without `crop` has: the whole photo, or what is left of its shape after turning. */
export function defaultCrop(photo: Size, degrees: number): Rectangle {
  if (degrees === 0) return { x: 0, y: 0, w: 1, h: 1 };
  return roundCrop(rectangleOf(largestCentred(photo, degrees, photo.width / photo.height), photo));
}

/** Edge lines in pixels; in an unturned photo an edge within `PHOTO_EDGE` of the photo's own becomes it. */
export function effectiveEdges(crop: Rectangle, photo: Size, degrees: number): Edges {
  const edges = edgesOf(crop, photo);
  if (degrees !== 0) return edges;
  const snap = (value: number, side: number) => {
    if (Math.abs(value) <= PHOTO_EDGE * side) return 0;
    return Math.abs(value - side) <= PHOTO_EDGE * side ? side : value;
  };
  return {
    left: snap(edges.left, photo.width),
    top: snap(edges.top, photo.height),
    right: snap(edges.right, photo.width),
    bottom: snap(edges.bottom, photo.height),
  };
}
