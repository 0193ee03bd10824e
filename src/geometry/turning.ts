import type { Point, Size } from './shapes.ts';

/**
 * Where points of the oriented photo (pixels) lie in the picture turned by `degrees` about the photo's centre (pixels,
 * the centre stays where it is). Positive degrees turn clockwise as seen.
 */
export function turning({ width, height }: Size, degrees: number): (point: Point) => Point {
  if (degrees === 0) return (point) => point;
  const radians = (degrees * Math.PI) / 180;
  const cosine = Math.cos(radians);
  const sine = Math.sin(radians);
  const centreX = width / 2;
  const centreY = height / 2;
  return (point) => {
    const x = point.x - centreX;
    const y = point.y - centreY;
    return { x: centreX + x * cosine - y * sine, y: centreY + x * sine + y * cosine };
  };
}

/** One point turned: see `turning`. */
export function turnPoint(point: Point, photo: Size, degrees: number): Point {
  return turning(photo, degrees)(point);
}

/** The inverse of `turnPoint`: a point of the turned picture (pixels) in the oriented photo (pixels). */
export function unturnPoint(point: Point, photo: Size, degrees: number): Point {
  return turnPoint(point, photo, -degrees);
}
