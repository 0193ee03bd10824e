import type { Point } from '../../../src/geometry/shapes.ts';
import type { Person } from '../../../src/people/person.ts';
import type { Random } from '../../scenes/random.ts';
import type { PeopledPicture } from './turned.ts';

/** A picture whose axis of symmetry is known, as a fraction of its width. */
export interface MirroredPicture extends PeopledPicture {
  readonly axis: number;
}

/** The light falls off to one side by at most this share, and every pixel is off by at most so much: sides are never equal. */
const FALL_OFF = 0.3;
const NOISE = 8;
/** Share of the joined picture's width that is kept, and how near to a side its axis may lie. */
const KEPT = [0.6, 0.9] as const;
const NEAREST = 0.28;

/**
 * A strip of a photo, half as wide as it, joined with its own mirror image, then cut so that the axis lies beside the
 * middle; its people on both sides. The sides differ in light and noise.
 */
export function mirroredPicture({ pixels, people }: PeopledPicture, random: Random): MirroredPicture {
  const { width, height } = pixels;
  const half = Math.floor(width / 2);
  const from = Math.floor(random.between(0, width - half));
  const joined = 2 * half;
  const kept = Math.floor(joined * random.between(...KEPT));
  // The axis is at `half` of the joined picture.
  const least = Math.max(0, Math.ceil(half - (1 - NEAREST) * kept));
  const most = Math.min(joined - kept, Math.floor(half - NEAREST * kept));
  const left = Math.floor(random.between(least, most));
  const fall = random.between(-FALL_OFF, FALL_OFF);
  const data = new Uint8Array(kept * height * 3);
  for (let y = 0, to = 0; y < height; y++) {
    for (let column = left; column < left + kept; column++) {
      const source = 3 * (y * width + from + (column < half ? column : joined - 1 - column));
      const light = 1 + fall * (column / joined - 0.5);
      for (let channel = 0; channel < 3; channel++, to++) {
        const value = pixels.data[source + channel]! * light + random.between(-NOISE, NOISE);
        data[to] = Math.max(0, Math.min(255, Math.round(value)));
      }
    }
  }
  // What of somebody lies in the strip, on its own side and on the other.
  const inStrip = ({ x }: Point): number => Math.max(0, Math.min(half, x * width - from));
  const sides = [inStrip, (corner: Point): number => joined - inStrip(corner)];
  const placed = people.flatMap((person) =>
    sides.map((side) => moved(person, (corner) => ({ x: (side(corner) - left) / kept, y: corner.y }))),
  );
  return { pixels: { width: kept, height, data }, people: placed, axis: (half - left) / kept };
}

/** A part of a picture with its people, at least half as wide and high. */
export function cutOf({ pixels, people }: PeopledPicture, random: Random): PeopledPicture {
  const width = Math.floor(pixels.width * random.between(0.5, 0.9));
  const height = Math.floor(pixels.height * random.between(0.5, 0.9));
  const left = Math.floor(random.between(0, pixels.width - width));
  const top = Math.floor(random.between(0, pixels.height - height));
  const data = new Uint8Array(width * height * 3);
  for (let row = 0; row < height; row++) {
    const start = 3 * ((top + row) * pixels.width + left);
    data.set(pixels.data.subarray(start, start + 3 * width), 3 * row * width);
  }
  const place = ({ x, y }: Point): Point => ({
    x: (x * pixels.width - left) / width,
    y: (y * pixels.height - top) / height,
  });
  return { pixels: { width, height, data }, people: people.map((person) => moved(person, place)) };
}

/** Only what covers somebody is needed: the outline, or the box. */
function moved(person: Person, place: (corner: Point) => Point): Person {
  const [left, top, width, height] = person.box;
  const corners = [
    { x: left, y: top },
    { x: left + width, y: top },
    { x: left + width, y: top + height },
    { x: left, y: top + height },
  ];
  return { ...person, outline: (person.outline ?? corners).map(place) };
}
