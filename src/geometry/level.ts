import type { Edges, Point, Size } from './shapes.ts';
import { heightOf, widthOf } from './shapes.ts';
import { turnPoint, unturnPoint } from './turning.ts';

/** The most that a picture is turned, in degrees, to either side. */
export const MOST_DEGREES = 45;

/** Degrees as the manifest has them: two decimals, within ±`MOST_DEGREES`. */
export function roundDegrees(degrees: number): number {
  const within = Math.min(MOST_DEGREES, Math.max(-MOST_DEGREES, degrees));
  return Math.round(within * 100) / 100 + 0;
}

/**
 * The crop after the picture was turned on from `from` to `to` degrees, in pixels of the turned picture. It keeps its
 * shape and stays over the same part of the photo; it moves no further than it must to lie in the photo, and gets smaller
 * only where no place in the photo is large enough.
 */
export function cropAfterTurn(crop: Edges, photo: Size, from: number, to: number): Edges {
  const radians = (Math.abs(to) * Math.PI) / 180;
  const [cosine, sine] = [Math.cos(radians), Math.sin(radians)];
  const [width, height] = [widthOf(crop), heightOf(crop)];
  // The sides of the smallest box, upright in the photo, around the crop.
  const across = width * cosine + height * sine;
  const down = width * sine + height * cosine;
  const scale = Math.min(1, photo.width / across, photo.height / down);
  const middle = unturnPoint({ x: (crop.left + crop.right) / 2, y: (crop.top + crop.bottom) / 2 }, photo, from);
  const inside = {
    x: within(middle.x, (across * scale) / 2, photo.width),
    y: within(middle.y, (down * scale) / 2, photo.height),
  };
  const { x, y } = turnPoint(inside, photo, to);
  const [halfWidth, halfHeight] = [(width * scale) / 2, (height * scale) / 2];
  return { left: x - halfWidth, top: y - halfHeight, right: x + halfWidth, bottom: y + halfHeight };
}

/** The nearest place that is `margin` away from both ends. */
function within(value: number, margin: number, whole: number): number {
  return Math.min(whole - margin, Math.max(margin, value));
}

/**
 * The degrees at which a line is level or upright, whichever is nearer, that is drawn into the picture turned by
 * `degrees`: two decimals. Where the line begins does not matter.
 */
export function degreesToLevel(start: Point, end: Point, degrees: number): number {
  const angle = (Math.atan2(end.y - start.y, end.x - start.x) * 180) / Math.PI;
  const lean = angle - 90 * Math.round(angle / 90);
  return roundDegrees(degrees - lean);
}
