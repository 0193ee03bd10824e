import type { Edges, Point, Size } from './shapes.ts';
import { turnPoint, unturnPoint } from './turning.ts';

/** Where the largest crop is looked for. */
export interface LargestAsked {
  /** Width over height. */
  readonly shape: number;
  /** The crop's middle comes as near to here as it can, in pixels of the turned picture. */
  readonly near: Point;
  /** It grows no higher than this, in pixels. Absent: as large as the photo allows. */
  readonly highest?: number;
}

/**
 * The largest upright rectangle of a shape that lies inside the photo turned by `degrees`, and of those of that size the
 * one whose middle is nearest to a place. Exact: an upright rectangle of half sides a, b lies in the turned photo when
 * its middle lies in the photo drawn in by (a·cos + b·sin, a·sin + b·cos), which again is a rectangle turned like the
 * photo; so the largest is the centred one, and the nearest middle is found by clamping along the photo's own sides.
 * @returns edge lines in pixels of the turned picture
 */
export function largestInside(photo: Size, degrees: number, { shape, near, highest = Infinity }: LargestAsked): Edges {
  const radians = (Math.abs(degrees) * Math.PI) / 180;
  const cosine = Math.cos(radians);
  const sine = Math.sin(radians);
  const fitting = Math.min(photo.width / (shape * cosine + sine), photo.height / (shape * sine + cosine));
  const height = Math.min(fitting, highest);
  const width = shape * height;
  const roomX = Math.max(0, (photo.width - width * cosine - height * sine) / 2);
  const roomY = Math.max(0, (photo.height - width * sine - height * cosine) / 2);
  const wanted = unturnPoint(near, photo, degrees);
  const middle = turnPoint(
    { x: clamp(wanted.x, photo.width / 2, roomX), y: clamp(wanted.y, photo.height / 2, roomY) },
    photo,
    degrees,
  );
  return {
    left: middle.x - width / 2,
    top: middle.y - height / 2,
    right: middle.x + width / 2,
    bottom: middle.y + height / 2,
  };
}

function clamp(value: number, middle: number, room: number): number {
  return Math.min(middle + room, Math.max(middle - room, value));
}
