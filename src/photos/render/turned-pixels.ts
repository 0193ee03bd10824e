import type { Edges, Size } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { unturnPoint } from '../../geometry/turning.ts';

/** A part of a picture, in whole pixels, as the image library takes it. */
export interface Region {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** How a piece of a turned photo is made with one resampling. Everything the image library needs, as numbers. */
export interface Turn {
  /** The part of the oriented photo that is needed. */
  readonly source: Region;
  /** Pixels by which that part is continued beyond the photo's own edge, on every side, by repeating the last ones. */
  readonly margin: number;
  /** From the part (margin included) to the turned canvas: a, b, c, d of x' = a·x + b·y, y' = c·x + d·y. */
  readonly matrix: readonly [number, number, number, number];
  /** Shifts by less than two pixels, so that the piece begins on a whole one. */
  readonly shift: { readonly x: number; readonly y: number };
  /** The piece in the canvas. */
  readonly piece: Region;
}

/** The interpolation reaches this far beyond a pixel (bicubic: two), and a pixel for rounding. */
const REACH = 3;

/**
 * How to cut a piece out of a photo turned clockwise by `degrees`.
 * @param taken its edges, in pixels of the turned picture
 * @param size of the piece in pixels; when it is smaller than what is taken, the piece is made at the photo's own scale
 * (rounded up to whole pixels) and is to be made smaller afterwards
 */
export function turnOf(photo: Size, degrees: number, taken: Edges, size: Size): Turn {
  const width = Math.max(size.width, Math.ceil(widthOf(taken) - 1e-6));
  const height = Math.max(size.height, Math.ceil(heightOf(taken) - 1e-6));
  const across = width / widthOf(taken);
  const down = height / heightOf(taken);
  const radians = (degrees * Math.PI) / 180;
  const cosine = Math.cos(radians);
  const sine = Math.sin(radians);
  const matrix = [across * cosine, -across * sine, down * sine, down * cosine] as const;
  const source = sourceRegion(photo, degrees, taken);

  // Where the part's own corner (margin included) lies in the piece.
  const startX = source.left - REACH - photo.width / 2;
  const startY = source.top - REACH - photo.height / 2;
  const offsetX = across * (startX * cosine - startY * sine + photo.width / 2 - taken.left);
  const offsetY = down * (startX * sine + startY * cosine + photo.height / 2 - taken.top);
  const canvas = canvasOrigin(matrix, source.width + 2 * REACH, source.height + 2 * REACH);
  const wholeX = Math.round(offsetX);
  const wholeY = Math.round(offsetY);
  return {
    source,
    margin: REACH,
    matrix,
    // The image library counts from the middle of the first pixel.
    shift: {
      x: (matrix[0] + matrix[1]) / 2 - 0.5 + offsetX - wholeX,
      y: (matrix[2] + matrix[3]) / 2 - 0.5 + offsetY - wholeY,
    },
    piece: { left: -wholeX - canvas.x, top: -wholeY - canvas.y, width, height },
  };
}

/** The part of the photo that the piece and the interpolation around it need. */
function sourceRegion(photo: Size, degrees: number, { left, top, right, bottom }: Edges): Region {
  const corners = [
    { x: left, y: top },
    { x: right, y: top },
    { x: left, y: bottom },
    { x: right, y: bottom },
  ].map((corner) => unturnPoint(corner, photo, degrees));
  const within = (value: number, most: number): number => Math.min(Math.max(0, value), most);
  const fromX = within(Math.floor(Math.min(...corners.map(({ x }) => x))) - REACH, photo.width - 1);
  const fromY = within(Math.floor(Math.min(...corners.map(({ y }) => y))) - REACH, photo.height - 1);
  const toX = within(Math.ceil(Math.max(...corners.map(({ x }) => x))) + REACH, photo.width);
  const toY = within(Math.ceil(Math.max(...corners.map(({ y }) => y))) + REACH, photo.height);
  return { left: fromX, top: fromY, width: Math.max(1, toX - fromX), height: Math.max(1, toY - fromY) };
}

/** The image library's canvas begins at the turned part's least x and y, without the shift, rounded to a whole pixel. */
function canvasOrigin([a, b, c, d]: Turn['matrix'], width: number, height: number): { x: number; y: number } {
  return {
    x: awayFromZero(Math.min(0, a * width, b * height, a * width + b * height)),
    y: awayFromZero(Math.min(0, c * width, d * height, c * width + d * height)),
  };
}

function awayFromZero(value: number): number {
  return Math.sign(value) * Math.round(Math.abs(value));
}
