import { SURE_LINES, type Person, type Symmetry, type Tilt } from '../../people/person.ts';
import type { Pyramid } from '../image/pyramid.ts';
import { axesOf } from './axes.ts';
import { DEGREE } from './fan-shape.ts';
import { coverOfPeople } from './people-cover.ts';
import { lightnessOf } from './plane.ts';

/** Pixels along the longer edge: what stands left and right of an axis is never alike to the last pixel. */
const LONG_EDGE = 160;
const LEAST_EDGE = 48;
/** A photo that leans by more has too much of it turned out of the picture; in degrees. */
const MOST_LEAN = 5;
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
  const axes = axesOf(plane, coverOfPeople(people, plane, degrees), LEAST_ALIKE);
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
