import type { Rectangle } from '../../geometry/shapes.ts';
import type { View } from './view.ts';

/** Parts of a photo are asked for in steps of this, so that a small move needs no new picture. */
const STEP = 1 / 16;
/** Pixels; what is asked for is no larger. */
const LONGEST_EDGE = 4000;

export interface Look {
  /** Fractions of the photo, not turned. */
  readonly region: Rectangle;
  readonly longEdge: number;
}

/**
 * The part of the photo that the page shows, and how sharp it has to be; undefined when the photo as a whole
 * (`wholeEdge` pixels along its longer edge) is sharp enough.
 * @param density pixels of the screen to one of the page
 */
export function closeLook(view: View, wholeEdge: number, density: number): Look | undefined {
  const { photo, page } = view;
  const longer = Math.max(photo.width, photo.height);
  const wanted = Math.min(1, view.scale * density);
  if (wanted * longer <= wholeEdge) return undefined;
  const corners = [
    { x: 0, y: 0 },
    { x: page.width, y: 0 },
    { x: 0, y: page.height },
    { x: page.width, y: page.height },
  ].map((corner) => view.toPhoto(corner));
  const [left, right] = span(corners.map(({ x }) => x));
  const [top, bottom] = span(corners.map(({ y }) => y));
  if (right <= left || bottom <= top) return undefined;
  const region = { x: left, y: top, w: right - left, h: bottom - top };
  const longEdge = Math.ceil(wanted * Math.max(region.w * photo.width, region.h * photo.height));
  return { region, longEdge: Math.min(LONGEST_EDGE, longEdge) };
}

/** From where to where, within the photo, in whole steps. */
function span(places: readonly number[]): readonly [number, number] {
  const from = Math.floor(Math.max(0, Math.min(...places)) / STEP) * STEP;
  const to = Math.ceil(Math.min(1, Math.max(...places)) / STEP) * STEP;
  return [from, to];
}
