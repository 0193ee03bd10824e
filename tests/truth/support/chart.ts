import sharp, { type Sharp } from 'sharp';
import type { Point, Size } from '../../../src/geometry/shapes.ts';

/** A round light dot; its middle is known far below a pixel. In pixels of the oriented photo. */
export interface Dot extends Point {
  readonly radius: number;
}

/** Where a place of the stored picture is seen, by EXIF orientation (Exif 2.32, tag 0x0112), sizes as stored. */
const SEEN: readonly ((x: number, y: number, width: number, height: number) => Point)[] = [
  (x, y) => ({ x, y }),
  (x, y, width) => ({ x: width - x, y }),
  (x, y, width, height) => ({ x: width - x, y: height - y }),
  (x, y, _, height) => ({ x, y: height - y }),
  (x, y) => ({ x: y, y: x }),
  (x, y, _, height) => ({ x: height - y, y: x }),
  (x, y, width, height) => ({ x: height - y, y: width - x }),
  (x, y, width) => ({ x: y, y: width - x }),
];

export const ORIENTATIONS = [1, 2, 3, 4, 5, 6, 7, 8] as const;

/**
 * Grey dots on a dark ground, computed from formulas and stored so that the given EXIF orientation shows them upright.
 * @param size of the oriented photo
 */
export function chart(size: Size, dots: readonly Dot[], orientation: number): Sharp {
  const isLaid = orientation >= 5;
  const width = isLaid ? size.height : size.width;
  const height = isLaid ? size.width : size.height;
  const seen = SEEN[orientation - 1]!;
  const data = Buffer.alloc(width * height * 3, 20);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const { x, y } = seen(column + 0.5, row + 0.5, width, height);
      let brightest = 0;
      for (const dot of dots) brightest = Math.max(brightest, brightness(dot, x, y));
      if (brightest === 0) continue;
      const at = (row * width + column) * 3;
      data.fill(Math.round(20 + 220 * brightest), at, at + 3);
    }
  }
  return sharp(data, { raw: { width, height, channels: 3 } }).withMetadata({ orientation });
}

function brightness({ x, y, radius }: Dot, atX: number, atY: number): number {
  if (Math.abs(atX - x) > 6 * radius || Math.abs(atY - y) > 6 * radius) return 0;
  return Math.exp(-((atX - x) ** 2 + (atY - y) ** 2) / (2 * radius ** 2));
}

/** The middle of the dot near a place of a picture, in its pixels. */
export function middleOfDot(picture: Grey, near: Point, reach: number): Point {
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  for (let row = Math.floor(near.y - reach); row < near.y + reach; row++) {
    for (let column = Math.floor(near.x - reach); column < near.x + reach; column++) {
      if (row < 0 || column < 0 || row >= picture.height || column >= picture.width) continue;
      const value = Math.max(0, picture.data[row * picture.width + column]! - 40);
      sum += value;
      sumX += value * (column + 0.5);
      sumY += value * (row + 0.5);
    }
  }
  return { x: sumX / sum, y: sumY / sum };
}

export interface Grey extends Size {
  readonly data: Buffer;
}

/** The brightness of a file's pixels, as it is stored. */
export async function greyOf(bytes: Buffer): Promise<Grey> {
  const { data, info } = await sharp(bytes).extractChannel(1).raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data };
}
