import type { Pixels } from '../../photos/decode.ts';
import type { Grid } from './grid.ts';

/** From this many photo pixels a sample on, a smaller level is read, so that nothing is skipped. */
const LARGEST_STEP = 1.6;
const MOST_LEVELS = 5;

/** What a sample finds outside the photo: black, or the pixel at the edge nearest to it. */
export type Beyond = 'black' | 'drawn-out';

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
    this.sampleRows(grid, beyond, (row, at) => {
      samples.set(row, at);
    });
    return samples;
  }

  /**
   * The same, one row after the other, so that no more than a row is ever held.
   * @param take gets a row's numbers, in memory that the next row is written to, and how many there were before
   */
  sampleRows(grid: Grid, beyond: Beyond, take: (row: Float32Array, at: number) => void): void {
    const { pixels, scale } = this.#levelFor(grid);
    const row = new Float32Array(3 * grid.width);
    for (let index = 0; index < grid.height; index++) {
      sampleRow(pixels, grid, index, scale, beyond, row);
      take(row, index * row.length);
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

function sampleRow(level: Pixels, grid: Grid, index: number, scale: number, beyond: Beyond, row: Float32Array): void {
  const { data, width, height } = level;
  const [right, bottom] = [width - 1, height - 1];
  const [stepX, stepY] = [grid.across.x * scale, grid.across.y * scale];
  // Centres of pixels lie half a pixel in, on both sides.
  let x = (grid.origin.x + 0.5 * grid.across.x + (index + 0.5) * grid.down.x) * scale - 0.5;
  let y = (grid.origin.y + 0.5 * grid.across.y + (index + 0.5) * grid.down.y) * scale - 0.5;
  for (let to = 0; to < row.length; to += 3, x += stepX, y += stepY) {
    if (x >= 0 && y >= 0 && x < right && y < bottom) {
      // Nearly every sample: all four pixels around it are there.
      const left = x | 0;
      const top = y | 0;
      const a = (top * width + left) * 3;
      const c = a + width * 3;
      blend(data, a, a + 3, c, c + 3, x - left, y - top, row, to);
      continue;
    }
    const isOutside = x <= -1 || y <= -1 || x >= width || y >= height;
    if (isOutside && beyond === 'black') {
      row[to] = 0;
      row[to + 1] = 0;
      row[to + 2] = 0;
      continue;
    }
    const px = isOutside ? Math.min(Math.max(x, 0), right) : x;
    const py = isOutside ? Math.min(Math.max(y, 0), bottom) : y;
    const left = Math.floor(px);
    const top = Math.floor(py);
    const columnA = left < 0 ? 0 : left;
    const columnB = left + 1 >= width ? right : left + 1;
    const rowA = (top < 0 ? 0 : top) * width;
    const rowB = (top + 1 >= height ? bottom : top + 1) * width;
    const [a, b, c, d] = [(rowA + columnA) * 3, (rowA + columnB) * 3, (rowB + columnA) * 3, (rowB + columnB) * 3];
    blend(data, a, b, c, d, px - left, py - top, row, to);
  }
}

/** Writes what lies between four pixels, `fx` of the way from a to b (and c to d) and `fy` from a to c. */
function blend(
  data: Uint8Array,
  a: number,
  b: number,
  c: number,
  d: number,
  fx: number,
  fy: number,
  result: Float32Array,
  to: number,
): void {
  const weightD = fx * fy;
  const weightB = fx - weightD;
  const weightC = fy - weightD;
  const weightA = 1 - fx - weightC;
  result[to] = data[a]! * weightA + data[b]! * weightB + data[c]! * weightC + data[d]! * weightD;
  result[to + 1] = data[a + 1]! * weightA + data[b + 1]! * weightB + data[c + 1]! * weightC + data[d + 1]! * weightD;
  result[to + 2] = data[a + 2]! * weightA + data[b + 2]! * weightB + data[c + 2]! * weightC + data[d + 2]! * weightD;
}
