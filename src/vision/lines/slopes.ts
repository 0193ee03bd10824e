import type { Cover, Plane } from './plane.ts';

/** Steps of lightness a pixel below this are noise and soft shade. */
const NOISE = 3;

/** How steep the lightness is at each pixel, across and down; 0 on people. A step counts as its square root. */
export interface Slopes {
  readonly across: Float32Array;
  readonly down: Float32Array;
}

/**
 * The steps of lightness outside people. What a whole row has in common is taken away: lines that run across the whole
 * picture (a horizon, a floor) are alike about any axis.
 */
export function slopesOf({ width, height, data }: Plane, cover: Cover): Slopes {
  const soft = softened(softened(data, 1), width);
  const across = new Float32Array(data.length);
  const down = new Float32Array(data.length);
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const at = y * width + x;
      if (cover.data[at]! > 0) continue;
      const dx = (soft[at + 1]! - soft[at - 1]!) / 2;
      const dy = (soft[at + width]! - soft[at - width]!) / 2;
      const steep = Math.hypot(dx, dy);
      if (steep < NOISE) continue;
      across[at] = dx / Math.sqrt(steep);
      down[at] = dy / Math.sqrt(steep);
    }
  }
  removeRowMeans(down, cover);
  return { across, down };
}

/** Each value with those `step` before and behind it, 1 2 1. Rows run into each other at the picture's sides. */
function softened(data: Float32Array, step: number): Float32Array {
  const soft = new Float32Array(data.length);
  for (let at = 0; at < data.length; at++) {
    const value = data[at]!;
    const before = at >= step ? data[at - step]! : value;
    const behind = at + step < data.length ? data[at + step]! : value;
    soft[at] = (before + 2 * value + behind) / 4;
  }
  return soft;
}

function removeRowMeans(down: Float32Array, { width, height, data: cover }: Cover): void {
  for (let y = 0; y < height; y++) {
    let [sum, count] = [0, 0];
    for (let at = y * width; at < (y + 1) * width; at++) {
      if (cover[at]! > 0) continue;
      sum += down[at]!;
      count += 1;
    }
    if (count === 0) continue;
    for (let at = y * width; at < (y + 1) * width; at++) if (cover[at]! === 0) down[at] = down[at]! - sum / count;
  }
}
