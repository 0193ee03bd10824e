import type { Pixels } from '../../photos/decode.ts';
import type { Grid } from './grid.ts';

/** What a sample finds outside the photo: black, or the pixel at the edge nearest to it. */
export type Beyond = 'black' | 'drawn-out';

/** The way through a picture along a row of a grid: where the next sample is, and where its colours are written. */
export interface Walk {
  /** Pixels of the picture, counted from the middle of the first one. */
  x: number;
  y: number;
  readonly stepX: number;
  readonly stepY: number;
  to: number;
  /** Behind the last sample's colours. */
  readonly end: number;
}

/**
 * @param scale how long a pixel of the photo is in the picture
 * @param to where the colours of the row's first sample are written
 */
export function walkAlong({ origin, across, down, width }: Grid, row: number, scale: number, to: number): Walk {
  return {
    // Centres of pixels lie half a pixel in, on both sides.
    x: (origin.x + 0.5 * across.x + (row + 0.5) * down.x) * scale - 0.5,
    y: (origin.y + 0.5 * across.y + (row + 0.5) * down.y) * scale - 0.5,
    stepX: across.x * scale,
    stepY: across.y * scale,
    to,
    end: to + 3 * width,
  };
}

export function advance(walk: Walk): void {
  walk.x += walk.stepX;
  walk.y += walk.stepY;
  walk.to += 3;
}

/**
 * Goes on while the next sample has nothing of the picture around it.
 * @returns where the first colour behind these is written
 */
export function passOutside(picture: Pixels, walk: Walk): number {
  const { stepX, stepY, end } = walk;
  let { x, y, to } = walk;
  while (to < end && isOutside(picture, x, y)) {
    x += stepX;
    y += stepY;
    to += 3;
  }
  walk.x = x;
  walk.y = y;
  walk.to = to;
  return to;
}

/** Whether the next sample gets a colour of the picture, but not from four pixels around it. */
export function isAtEdge(picture: Pixels, { x, y }: Walk, beyond: Beyond): boolean {
  const isAmongPixels = x >= 0 && y >= 0 && x < picture.width - 1 && y < picture.height - 1;
  return !isAmongPixels && (beyond === 'drawn-out' || !isOutside(picture, x, y));
}

function isOutside({ width, height }: Pixels, x: number, y: number): boolean {
  return x <= -1 || y <= -1 || x >= width || y >= height;
}

/** Writes the colour of the next sample where it is at the edge or beyond it. */
export function colourAtEdge(picture: Pixels, { x, y }: Walk, colour: Float32Array): void {
  const { data, width, height } = picture;
  const [right, bottom] = [width - 1, height - 1];
  const isFar = isOutside(picture, x, y);
  const px = isFar ? Math.min(Math.max(x, 0), right) : x;
  const py = isFar ? Math.min(Math.max(y, 0), bottom) : y;
  const left = Math.floor(px);
  const top = Math.floor(py);
  const columnA = left < 0 ? 0 : left;
  const columnB = left + 1 >= width ? right : left + 1;
  const rowA = (top < 0 ? 0 : top) * width;
  const rowB = (top + 1 >= height ? bottom : top + 1) * width;
  const [a, b, c, d] = [(rowA + columnA) * 3, (rowA + columnB) * 3, (rowB + columnA) * 3, (rowB + columnB) * 3];
  const weightD = (px - left) * (py - top);
  const weightB = px - left - weightD;
  const weightC = py - top - weightD;
  const weightA = 1 - (px - left) - weightC;
  for (let k = 0; k < 3; k++) {
    colour[k] = data[a + k]! * weightA + data[b + k]! * weightB + data[c + k]! * weightC + data[d + k]! * weightD;
  }
}
