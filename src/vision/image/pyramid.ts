import type { Pixels } from '../../photos/decode.ts';
import type { Grid } from './grid.ts';
import { sampleBytes, sampleUnits } from './sample-row.ts';
import { walkAlong, type Beyond } from './walk.ts';

/** From this many photo pixels a sample on, a smaller level is read, so that nothing is skipped. */
const LARGEST_STEP = 1.6;
const MOST_LEVELS = 5;

/** A picture with halved copies of itself, made when they are first needed. */
export class Pyramid {
  readonly width: number;
  readonly height: number;
  readonly #levels: Pixels[];

  constructor(pixels: Pixels) {
    this.width = pixels.width;
    this.height = pixels.height;
    const { data, width, height } = pixels;
    // The image library's pixels come as a kind of their own, and code that reads two kinds is slower.
    this.#levels = [{ data: new Uint8Array(data.buffer, data.byteOffset, data.length), width, height }];
  }

  /**
   * The picture on a grid, between pixels in a straight line (bilinear).
   * @returns red, green, blue from 0 to 255 for each grid pixel, row by row
   */
  sample(grid: Grid, beyond: Beyond = 'black'): Float32Array {
    const samples = new Float32Array(grid.width * grid.height * 3);
    this.writeUnits(grid, beyond, 1, samples);
    return samples;
  }

  /** Writes the same as whole numbers. */
  writeBytes(grid: Grid, beyond: Beyond, values: Int32Array): void {
    const { pixels, scale } = this.#levelFor(grid);
    for (let row = 0; row < grid.height; row++) {
      sampleBytes(pixels, walkAlong(grid, row, scale, 3 * row * grid.width), beyond, values);
    }
  }

  /** Writes the same divided by `unit`. */
  writeUnits(grid: Grid, beyond: Beyond, unit: number, values: Float32Array): void {
    const { pixels, scale } = this.#levelFor(grid);
    for (let row = 0; row < grid.height; row++) {
      sampleUnits(pixels, walkAlong(grid, row, scale, 3 * row * grid.width), beyond, unit, values);
    }
  }

  /** The picture itself, or a halved copy, where a grid lies on its pixels one by one and on no more and no fewer. */
  levelOn(grid: Grid): Pixels | undefined {
    const { origin, across, down, width, height } = grid;
    const { pixels, scale } = this.#levelFor(grid);
    const isOnPixels = across.x * scale === 1 && across.y === 0 && down.x === 0 && down.y * scale === 1;
    const isWhole = origin.x === 0 && origin.y === 0 && width === pixels.width && height === pixels.height;
    return isOnPixels && isWhole ? pixels : undefined;
  }

  /** What a grid is sampled from, and how long a pixel of the whole picture is there. */
  #levelFor({ across }: Grid): { readonly pixels: Pixels; readonly scale: number } {
    let step = Math.hypot(across.x, across.y);
    let level = 0;
    while (step >= LARGEST_STEP && level < MOST_LEVELS) {
      step /= 2;
      level += 1;
    }
    return { pixels: this.#level(level), scale: 2 ** -level };
  }

  #level(level: number): Pixels {
    while (this.#levels.length <= level) this.#levels.push(halved(this.#levels.at(-1)!));
    return this.#levels[level]!;
  }
}

/** Each pixel the mean of four; a last odd row or column is left out. */
function halved({ data, width, height }: Pixels): Pixels {
  const w = Math.max(1, width >> 1);
  const h = Math.max(1, height >> 1);
  const half = new Uint8Array(w * h * 3);
  const right = width > 1 ? 3 : 0;
  const below = height > 1 ? width * 3 : 0;
  let to = 0;
  for (let y = 0; y < h; y++) {
    let a = 2 * y * width * 3;
    for (let x = 0; x < w; x++, a += 6, to += 3) {
      const b = a + right;
      const c = a + below;
      const d = c + right;
      half[to] = (data[a]! + data[b]! + data[c]! + data[d]! + 2) >> 2;
      half[to + 1] = (data[a + 1]! + data[b + 1]! + data[c + 1]! + data[d + 1]! + 2) >> 2;
      half[to + 2] = (data[a + 2]! + data[b + 2]! + data[c + 2]! + data[d + 2]! + 2) >> 2;
    }
  }
  return { data: half, width: w, height: h };
}
