import { insidePhoto } from '../../geometry/crop.ts';
import { excess } from '../../geometry/half-space.ts';
import type { Edges, Point, Size } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { turnPoint } from '../../geometry/turning.ts';

/** What is cut out of a photo, and how large it becomes. */
export interface Cut {
  /** Of the oriented photo. */
  readonly photo: Size;
  /** Clockwise about the photo's centre. */
  readonly degrees: number;
  /** The trimmed picture's edges, in pixels of the turned picture; inside the photo. */
  readonly crop: Edges;
  /** Of the trimmed picture, in pixels of the file. */
  readonly trimmed: Size;
  /** Picture beyond the trimmed edge on each side, in pixels of the file. */
  readonly bleed: number;
}

/** Where a cut's pixels come from and where they go. */
export interface Placement {
  /** The edges of what is taken from the photo, bleed included, in pixels of the turned picture. */
  readonly taken: Edges;
  /** What becomes of that, in pixels of the file. */
  readonly picture: Size;
  /** Where the photo ends inside the bleed, the picture is continued by its mirror image: pixels of the file by side. */
  readonly mirrored: Edges;
  /** The whole file. */
  readonly file: Size;
}

export function placementOf(cut: Cut): Placement {
  const { crop, trimmed, bleed } = cut;
  const across = trimmed.width / widthOf(crop);
  const down = trimmed.height / heightOf(crop);
  const room = roomAround(cut, bleed / across, bleed / down);
  const taken = {
    left: Math.min(bleed, Math.floor(room.left * across + 1e-6)),
    top: Math.min(bleed, Math.floor(room.top * down + 1e-6)),
    right: Math.min(bleed, Math.floor(room.right * across + 1e-6)),
    bottom: Math.min(bleed, Math.floor(room.bottom * down + 1e-6)),
  };
  return {
    taken: {
      left: crop.left - taken.left / across,
      top: crop.top - taken.top / down,
      right: crop.right + taken.right / across,
      bottom: crop.bottom + taken.bottom / down,
    },
    picture: { width: trimmed.width + taken.left + taken.right, height: trimmed.height + taken.top + taken.bottom },
    mirrored: {
      left: bleed - taken.left,
      top: bleed - taken.top,
      right: bleed - taken.right,
      bottom: bleed - taken.bottom,
    },
    file: { width: trimmed.width + 2 * bleed, height: trimmed.height + 2 * bleed },
  };
}

/** How far the photo goes on beyond the crop, up to what is wanted; in pixels of the turned picture. */
function roomAround({ photo, degrees, crop }: Cut, wantedX: number, wantedY: number): Edges {
  if (degrees === 0) {
    const upTo = (wanted: number, room: number): number => Math.max(0, Math.min(wanted, room));
    return {
      left: upTo(wantedX, crop.left),
      top: upTo(wantedY, crop.top),
      right: upTo(wantedX, photo.width - crop.right),
      bottom: upTo(wantedY, photo.height - crop.bottom),
    };
  }
  // Of a turned photo the corners end first: all sides get the same share of what they want.
  const whole = {
    left: crop.left - wantedX,
    top: crop.top - wantedY,
    right: crop.right + wantedX,
    bottom: crop.bottom + wantedY,
  };
  let share = 1;
  for (const condition of insidePhoto(photo, degrees)) {
    const before = excess(condition, crop);
    const after = excess(condition, whole);
    if (after > 0) share = Math.min(share, after > before ? Math.max(0, -before / (after - before)) : 1);
  }
  return { left: share * wantedX, top: share * wantedY, right: share * wantedX, bottom: share * wantedY };
}

/** Where a point of the oriented photo (pixels) lies in the file (pixels), whether the file shows it or not. */
export function placeInFile(cut: Cut, point: Point): Point {
  const { photo, degrees, crop, trimmed, bleed } = cut;
  const turned = turnPoint(point, photo, degrees);
  return {
    x: ((turned.x - crop.left) * trimmed.width) / widthOf(crop) + bleed,
    y: ((turned.y - crop.top) * trimmed.height) / heightOf(crop) + bleed,
  };
}
