import type { Size } from '../../geometry/shapes.ts';
import type { Pixels } from '../../photos/decode.ts';

/** How light a drawn scene is, 0 to 255, at a place: shares of the longer edge from the picture's middle, x right, y down. */
export type Scene = (x: number, y: number) => number;

export interface ChartOptions {
  /** Degrees by which the scene is turned in the picture, clockwise as seen. */
  readonly roll?: number;
  /** Levels of grain, one standard deviation. */
  readonly grain?: number;
  readonly size?: Size;
}

const SIZE: Size = { width: 900, height: 600 };
/** Places of a pixel that are looked at, each way. */
const SAMPLES = 2;

/** A picture of a scene, as even as its pixels allow. */
export function drawChart(scene: Scene, { roll = 0, grain = 2, size = SIZE }: ChartOptions = {}): Pixels {
  const { width, height } = size;
  const longEdge = Math.max(width, height);
  const angle = (roll * Math.PI) / 180;
  const across = Math.cos(angle) / longEdge;
  const down = Math.sin(angle) / longEdge;
  const random = randomNumbers(7);
  const data = new Uint8Array(3 * width * height);
  for (let row = 0, to = 0; row < height; row++) {
    for (let column = 0; column < width; column++, to += 3) {
      let sum = 0;
      for (let sample = 0; sample < SAMPLES ** 2; sample++) {
        const x = column + ((sample % SAMPLES) + 0.5) / SAMPLES - width / 2;
        const y = row + (Math.floor(sample / SAMPLES) + 0.5) / SAMPLES - height / 2;
        sum += scene(x * across + y * down, y * across - x * down);
      }
      const light = sum / SAMPLES ** 2 + grain * normal(random);
      data.fill(Math.max(0, Math.min(255, Math.round(light))), to, to + 3);
    }
  }
  return { width, height, data };
}

/** Numbers from 0 to 1, the same ones for the same seed (Steele, Lea and Flood's SplitMix with 32 bits). */
export function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x9e3779b9) | 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
}

/** Box and Muller, 1958. */
export function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** A light sky above a darker, slightly restless sea; `y` of the horizon. */
export function sea(y: number): Scene {
  return (x, at) => (at < y ? 205 : 165 + 3 * Math.sin(90 * at) * Math.sin(37 * x));
}

/**
 * Dark posts before `behind`, at these places of the picture's middle line; they meet 1 / convergence above it.
 * `leans`: degrees, clockwise, of each post by itself.
 */
export function posts(
  places: readonly number[],
  { behind = () => 200, convergence = 0, leans = [] }: { behind?: Scene; convergence?: number; leans?: number[] } = {},
): Scene {
  const halfWidth = 0.008;
  const tangents = places.map((_, index) => Math.tan(((leans[index] ?? 0) * Math.PI) / 180));
  return (x, y) => {
    const isPost = places.some((place, index) => {
      return Math.abs((x + y * tangents[index]!) / (1 + convergence * y) - place) < halfWidth;
    });
    return isPost ? 70 : behind(x, y);
  };
}
