import type { Pixels } from '../../photos/decode.ts';
import { advance, colourAtEdge, isAtEdge, passOutside, type Beyond, type Walk } from './walk.ts';

/*
 * A photo has near a million samples. Loops that end where a pixel is missing, instead of asking what to do, and that
 * write what the model takes, instead of what is changed into it afterwards, are a third faster; so there are two.
 */

/** Writes the colours of a row of samples as whole numbers from 0 to 255. */
export function sampleBytes(picture: Pixels, walk: Walk, beyond: Beyond, values: Int32Array): void {
  const colour = new Float32Array(3);
  while (walk.to < walk.end) {
    bytesAmongPixels(picture, walk, values);
    if (beyond === 'black') values.fill(0, walk.to, passOutside(picture, walk));
    while (walk.to < walk.end && isAtEdge(picture, walk, beyond)) {
      colourAtEdge(picture, walk, colour);
      for (let k = 0; k < 3; k++) values[walk.to + k] = (colour[k]! + 0.5) | 0;
      advance(walk);
    }
  }
}

/** Writes the colours of a row of samples as numbers from 0 to 255 / `unit`. */
export function sampleUnits(picture: Pixels, walk: Walk, beyond: Beyond, unit: number, values: Float32Array): void {
  const colour = new Float32Array(3);
  while (walk.to < walk.end) {
    unitsAmongPixels(picture, walk, unit, values);
    if (beyond === 'black') values.fill(0, walk.to, passOutside(picture, walk));
    while (walk.to < walk.end && isAtEdge(picture, walk, beyond)) {
      colourAtEdge(picture, walk, colour);
      for (let k = 0; k < 3; k++) values[walk.to + k] = colour[k]! / unit;
      advance(walk);
    }
  }
}

function bytesAmongPixels({ data, width, height }: Pixels, walk: Walk, values: Int32Array): void {
  const { stepX, stepY, end } = walk;
  let { x, y, to } = walk;
  const [right, bottom, stride] = [width - 1, height - 1, 3 * width];
  for (; to < end && x >= 0 && y >= 0 && x < right && y < bottom; to += 3, x += stepX, y += stepY) {
    const left = x | 0;
    const top = y | 0;
    const above = (top * stride + left * 3) | 0;
    const below = (above + stride) | 0;
    // What lies between the four pixels a, b above and c, d below.
    const d = (x - left) * (y - top);
    const b = x - left - d;
    const c = y - top - d;
    const a = 1 - (x - left) - c;
    values[to] = (Math.fround(mixed(data, above, below, a, b, c, d)) + 0.5) | 0;
    values[to + 1] = (Math.fround(mixed(data, above + 1, below + 1, a, b, c, d)) + 0.5) | 0;
    values[to + 2] = (Math.fround(mixed(data, above + 2, below + 2, a, b, c, d)) + 0.5) | 0;
  }
  walk.x = x;
  walk.y = y;
  walk.to = to;
}

function unitsAmongPixels({ data, width, height }: Pixels, walk: Walk, unit: number, values: Float32Array): void {
  const { stepX, stepY, end } = walk;
  let { x, y, to } = walk;
  const [right, bottom, stride] = [width - 1, height - 1, 3 * width];
  for (; to < end && x >= 0 && y >= 0 && x < right && y < bottom; to += 3, x += stepX, y += stepY) {
    const left = x | 0;
    const top = y | 0;
    const above = (top * stride + left * 3) | 0;
    const below = (above + stride) | 0;
    const d = (x - left) * (y - top);
    const b = x - left - d;
    const c = y - top - d;
    const a = 1 - (x - left) - c;
    values[to] = Math.fround(mixed(data, above, below, a, b, c, d)) / unit;
    values[to + 1] = Math.fround(mixed(data, above + 1, below + 1, a, b, c, d)) / unit;
    values[to + 2] = Math.fround(mixed(data, above + 2, below + 2, a, b, c, d)) / unit;
  }
  walk.x = x;
  walk.y = y;
  walk.to = to;
}

/** One colour of two neighbouring pixels above and two below, each by its weight. */
function mixed(data: Uint8Array, above: number, below: number, a: number, b: number, c: number, d: number): number {
  return data[above]! * a + data[above + 3]! * b + data[below]! * c + data[below + 3]! * d;
}
