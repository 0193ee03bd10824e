import { SURE_LINES, type Person, type Symmetry, type Tilt } from '../../people/person.ts';
import type { Pyramid } from '../image/pyramid.ts';
import { DEGREE } from './fan-shape.ts';
import { coverOfPeople } from './people-cover.ts';
import { lightnessOf, type Cover, type Plane } from './plane.ts';
import { slopesOf, type Slopes } from './slopes.ts';

/** Pixels along the longer edge: what stands left and right of an axis is never alike to the last pixel. */
const LONG_EDGE = 160;
const LEAST_EDGE = 48;
/** A photo that leans by more has too much of it turned out of the picture; in degrees. */
const MOST_LEAN = 5;
/** An axis nearer to a side than this, as a share of the width, has too little beside it to be told. */
const LEAST_WING = 0.25;
/** Distances from an axis are counted in bands so wide, in pixels. */
const BAND = 4;
/** Other axes are those at least this far away, as a share of the width. */
const ELSEWHERE = 0.04;

/*
 * What an axis must show, chosen so that none of 28 labelled and rendered photos and of 112 cuts of them answers: see
 * tests/truth/symmetry.test.ts.
 */
const LEAST_ALIKE = 0.65;
const LEAST_LEAD = 0.25;
const LEAST_COMPARED = 0.45;
const LEAST_SPREAD = 0.3;
const LEAST_STRUCTURE = 0.02;

/** How well an upright axis, in pixels from the left, is one of symmetry. */
interface Axis {
  readonly x: number;
  /** How alike both sides are, −1 to 1; 1 when each is the mirror image of the other. */
  readonly alike: number;
  /** Share of the picture's structure that has a counterpart to be compared with. */
  readonly compared: number;
  /** How evenly that structure lies over the distances from the axis: 1 everywhere alike, 0 at one distance alone. */
  readonly spread: number;
  /** How much of it there is, a pixel of the picture. */
  readonly structure: number;
}

/**
 * About which upright axis a photo is symmetric outside people: the steps of lightness on one side are those of the
 * other, mirrored. Undefined when no axis stands out, or when too little tells: rather nothing than a guess.
 * @param people places as fractions of the picture
 * @param tilt the axis is sought upright in the levelled picture where this is sure
 */
export function findSymmetry(picture: Pyramid, people: readonly Person[], tilt?: Tilt): Symmetry | undefined {
  if (Math.min(picture.width, picture.height) < LEAST_EDGE) return undefined;
  const degrees = tilt && tilt.confidence >= SURE_LINES && Math.abs(tilt.degrees) <= MOST_LEAN ? tilt.degrees : 0;
  const plane = lightnessOf(picture, LONG_EDGE, degrees);
  const axes = axesOf(plane, coverOfPeople(people, plane, degrees));
  const [first, ...others] = [...axes].sort((one, other) => other.alike - one.alike);
  if (!first) return undefined;
  const { x, alike, compared, spread, structure } = first;
  const next = others.find((axis) => Math.abs(axis.x - x) > ELSEWHERE * plane.width)?.alike ?? 0;
  const isClear = alike >= LEAST_ALIKE && alike - next >= LEAST_LEAD && compared >= LEAST_COMPARED;
  if (!isClear || spread < LEAST_SPREAD || structure < LEAST_STRUCTURE) return undefined;
  // 0.5 where it is just alike enough, 1 from 0.9 on.
  const confidence = Math.min(1, 0.5 + 2 * (alike - LEAST_ALIKE));
  // Where the axis, which leans in a photo that does, crosses its middle row.
  const place = 0.5 + (x / plane.width - 0.5) / Math.cos(degrees * DEGREE);
  return { x: Number(place.toFixed(4)), confidence: Number(confidence.toFixed(2)) };
}

/** Every upright axis with enough beside it, half a pixel apart. */
function axesOf(plane: Plane, cover: Cover): Axis[] {
  const slopes = slopesOf(plane, cover);
  const structure = structureOf(slopes);
  const axes: Axis[] = [];
  const { width } = plane;
  for (let twice = Math.ceil(2 * LEAST_WING * width); twice <= 2 * (1 - LEAST_WING) * width; twice++) {
    const axis = axisAt(twice / 2, slopes, cover, structure);
    if (axis) axes.push(axis);
  }
  return axes;
}

/** How much structure the whole picture has. */
function structureOf({ across, down }: Slopes): number {
  let sum = 0;
  for (let at = 0; at < across.length; at++) {
    sum += across[at]! * across[at]!;
    sum += down[at]! * down[at]!;
  }
  return sum;
}

/** Holds both sides of an axis against each other; undefined where there is nothing to compare. */
function axisAt(x: number, { across, down }: Slopes, cover: Cover, all: number): Axis | undefined {
  const { width } = cover;
  // The columns of two pixels that mirror each other add up to this.
  const sum = 2 * x - 1;
  const first = Math.max(0, sum - (width - 1));
  const bands = new Float64Array(Math.ceil((sum - 2 * first) / (2 * BAND)) + 1);
  let alike = 0;
  let energy = 0;
  for (let row = 0; row < across.length; row += width) {
    for (let a = row + first, b = row + sum - first; a < b; a++, b--) {
      if (cover.data[a]! + cover.data[b]! > 0) continue;
      const ax = across[a]!;
      const ay = down[a]!;
      const bx = across[b]!;
      const by = down[b]!;
      const here = (ax * ax + ay * ay + bx * bx + by * by) / 2;
      alike += ay * by - ax * bx;
      energy += here;
      bands[((b - a) / (2 * BAND)) | 0]! += here;
    }
  }
  if (energy === 0) return undefined;
  const squares = bands.reduce((total, band) => total + band * band, 0);
  return {
    x,
    alike: alike / energy,
    compared: (2 * energy) / all,
    spread: (energy * energy) / (bands.length * squares),
    structure: energy / across.length,
  };
}
