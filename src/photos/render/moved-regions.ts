import { boxAround, distance } from '../../geometry/points.ts';
import type { Edges, Point, Size } from '../../geometry/shapes.ts';
import type { MarkedRegion } from './regions.ts';

/** A region in a new picture, in fractions of it; a circle by its middle and radius (a fraction of the width). */
export interface MovedRegion extends Omit<MarkedRegion, 'points'> {
  /** The smallest upright box around it, inside the picture. */
  readonly box: Edges;
  readonly points: readonly Point[];
  readonly radius: number;
}

/**
 * The regions of a photo where they lie in a picture that was cut out of it. A region whose middle is not in the picture
 * is left out; one that an edge cuts becomes as large as what is seen of it. A rectangle that was turned becomes the
 * smallest upright one around it.
 * @param place where a point of the photo lies in the picture; both in pixels
 */
export function movedRegions(
  regions: readonly MarkedRegion[],
  place: (point: Point) => Point,
  picture: Size,
): MovedRegion[] {
  return regions.flatMap((region): MovedRegion[] => {
    const { points: before, ...rest } = region;
    const placed = before.map(place);
    const [middle, rim] = placed;
    if (!middle || !rim) return [];
    const radius = region.shape === 'circle' ? distance(middle, rim) : 0;
    const around = region.shape === 'circle' ? circleBox(middle, radius) : boxAround(placed);
    const centre = { x: (around.left + around.right) / 2, y: (around.top + around.bottom) / 2 };
    if (!isIn(centre, picture)) return [];
    const inside = (point: Point): Point => ({
      x: Math.min(1, Math.max(0, point.x / picture.width)),
      y: Math.min(1, Math.max(0, point.y / picture.height)),
    });
    const start = inside({ x: around.left, y: around.top });
    const end = inside({ x: around.right, y: around.bottom });
    const box = { left: start.x, top: start.y, right: end.x, bottom: end.y };
    return [{ ...rest, box, points: placed.map(inside), radius: radius / picture.width }];
  });
}

function circleBox({ x, y }: Point, radius: number): Edges {
  return { left: x - radius, top: y - radius, right: x + radius, bottom: y + radius };
}

function isIn({ x, y }: Point, { width, height }: Size): boolean {
  return x >= 0 && y >= 0 && x <= width && y <= height;
}
