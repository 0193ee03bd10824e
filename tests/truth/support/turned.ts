import type { Point } from '../../../src/geometry/shapes.ts';
import { turnPoint } from '../../../src/geometry/turning.ts';
import type { Person } from '../../../src/people/person.ts';
import type { Pixels } from '../../../src/photos/decode.ts';
import type { Grid } from '../../../src/vision/image/grid.ts';
import { Pyramid } from '../../../src/vision/image/pyramid.ts';
import { foundPlaces } from '../../../src/people/places.ts';

export interface PeopledPicture {
  readonly pixels: Pixels;
  /** Places as fractions of the picture. */
  readonly people: readonly Person[];
}

/** The picture and its people turned clockwise by some degrees about the middle, cut to the largest picture of the same shape. */
export function turnedPicture({ pixels, people }: PeopledPicture, degrees: number): PeopledPicture {
  if (degrees === 0) return { pixels, people };
  const angle = (degrees * Math.PI) / 180;
  const [cosine, sine] = [Math.cos(angle), Math.abs(Math.sin(angle))];
  const { width, height } = pixels;
  const scale = 1 / Math.max(cosine + (sine * height) / width, cosine + (sine * width) / height);
  const size = { width: Math.floor(width * scale), height: Math.floor(height * scale) };
  const across = { x: cosine, y: -Math.sin(angle) };
  const down = { x: Math.sin(angle), y: cosine };
  const origin = {
    x: (width - size.width * across.x - size.height * down.x) / 2,
    y: (height - size.width * across.y - size.height * down.y) / 2,
  };
  const grid: Grid = { origin, across, down, ...size };
  const sampled = new Pyramid(pixels).sample(grid);
  const data = new Uint8Array(sampled.length);
  for (let at = 0; at < data.length; at++) data[at] = Math.round(sampled[at]!);
  const move = <Place extends Point>(place: Place): Place => {
    const { x, y } = turnPoint({ x: place.x * width, y: place.y * height }, pixels, degrees);
    return {
      ...place,
      x: (x - (width - size.width) / 2) / size.width,
      y: (y - (height - size.height) / 2) / size.height,
    };
  };
  return { pixels: { ...size, data }, people: people.map((person) => movedPerson(person, move)) };
}

/** Boxes stay where they were: only a person without an outline is known by the box. */
function movedPerson(person: Person, move: <Place extends Point>(place: Place) => Place): Person {
  const points = foundPlaces(person.points).map(([name, point]) => [name, move(point)] as const);
  return {
    ...person,
    points: Object.fromEntries(points),
    ...(person.outline && { outline: person.outline.map(move) }),
  };
}
