import { basename } from 'node:path';
import type { Point, Size } from '../geometry/shapes.ts';
import type { MeasuredPoint, Person, PhotoPeople } from '../people/person.ts';
import { SIDES, type PointName } from '../people/points.ts';
import { decodePhoto, type DecodedPhoto, type Pixels } from '../photos/decode.ts';
import { digestOfFile } from '../photos/digest.ts';
import { Pyramid } from './image/pyramid.ts';
import { findLevel } from './lines/level.ts';
import { findSymmetry } from './lines/symmetry.ts';
import { measuredBy } from './models/catalogue.ts';
import type { ModelSet } from './models/model-set.ts';
import { boxAround } from '../geometry/points.ts';
import { simplify } from './stages/contour.ts';
import { findHeadTop } from './stages/head-top.ts';
import { observePeople, type Observation } from './stages/observe.ts';
import { findFeet } from './stages/feet.ts';
import { findHand } from './stages/hands.ts';
import { traceOutline } from './stages/outline.ts';
import { personSize, weighBody, type WeighedPoint } from './stages/weigh.ts';

/** Larger photos are measured in a copy of this size: the models see at most 384 pixels at a time. */
export const LONG_EDGE = 1600;
/** Nobody can be told in a picture with a shorter edge than this. */
const LEAST_EDGE = 16;
const MOST_OUTLINE_POINTS = 64;
/** Gaps in an outline that are kept, and corners of each. */
const MOST_GAPS = 4;
const MOST_GAP_POINTS = 12;
/** Points below this say nothing to any rule. */
const LEAST_CONFIDENCE = 0.05;

export interface MeasureOptions {
  readonly models: ModelSet;
  /** What the people file calls the photo; the file's name if absent. */
  readonly photo?: string;
  /** The product's version, for `by`. */
  readonly version: string;
}

/** What is taken from a photo's file. */
export interface ReadPhoto extends DecodedPhoto {
  readonly digest: string;
}

/**
 * Reads a photo to be measured.
 * @throws PhotoError when the file is not a picture that can be read
 */
export async function readPhoto(path: string): Promise<ReadPhoto> {
  // Decoding keeps another thread busy, and leaves this one free for the digest.
  const [decoded, digest] = await Promise.all([decodePhoto(path, LONG_EDGE), digestOfFile(path)]);
  return { ...decoded, digest };
}

/**
 * Measures one photo: everybody in it, how it leans, its horizon, its symmetry. The file is only read.
 * @param reading the photo, where its reading has already begun
 * @returns places as fractions of the oriented photo, four decimals
 * @throws PhotoError when the file is not a picture that can be read
 */
export async function measurePhoto(
  path: string,
  options: MeasureOptions,
  reading: Promise<ReadPhoto> = readPhoto(path),
): Promise<PhotoPeople> {
  const { size, pixels, digest } = await reading;
  return {
    photo: options.photo ?? basename(path),
    size,
    digest,
    ...(await measurePicture(pixels, options.models)),
    by: measuredBy(options.version),
  };
}

/** Everything that a decoded photo tells: everybody in it, how it leans, its horizon, its symmetry. Places are fractions of it. */
export async function measurePicture(
  pixels: Pixels,
  models: ModelSet,
): Promise<Pick<PhotoPeople, 'people' | 'tilt' | 'horizon' | 'symmetry'>> {
  const picture = new Pyramid(pixels);
  const people = await measurePeople(picture, models);
  const level = findLevel(picture, people);
  const symmetry = findSymmetry(picture, people, level.tilt);
  return { people, ...level, ...(symmetry && { symmetry }) };
}

/** Everybody in a decoded photo, numbered from the left; places as fractions of it. */
export async function measurePixels(pixels: Pixels, models: ModelSet): Promise<Person[]> {
  return measurePeople(new Pyramid(pixels), models);
}

async function measurePeople(picture: Pyramid, models: ModelSet): Promise<Person[]> {
  if (Math.min(picture.width, picture.height) < LEAST_EDGE) return [];
  const people: UnnumberedPerson[] = [];
  for (const observation of await observePeople(models, picture)) {
    people.push(await describePerson(models, picture, observation));
  }
  return people.sort(fromLeft).map((person, index) => ({ id: index + 1, ...person }));
}

type UnnumberedPerson = Omit<Person, 'id'>;

function fromLeft(first: UnnumberedPerson, second: UnnumberedPerson): number {
  return first.box[0] + first.box[2] / 2 - (second.box[0] + second.box[2] / 2);
}

async function describePerson(models: ModelSet, photo: Pyramid, observation: Observation): Promise<UnnumberedPerson> {
  const { whole } = observation;
  const { outline: contour, gaps } = traceOutline(whole?.mask, photo);
  const corners = (line: readonly Point[], most: number): Point[] =>
    simplify(line, most).map((corner) => fractions(corner, photo));
  const body = weighBody(observation, photo);
  const found = new Map<PointName, WeighedPoint>(body);
  if (whole !== undefined) {
    addAll(found, findFeet(body, whole));
    for (const side of SIDES) {
      addAll(found, await findHand(models, photo, side, { body, whole, size: personSize(observation) }));
    }
  }
  const points: Partial<Record<PointName, MeasuredPoint>> = {};
  for (const [name, point] of found) {
    if (point.confidence >= LEAST_CONFIDENCE) points[name] = measured(point, photo);
  }
  const headTop = findHeadTop(observation.votes, contour);
  const { left, top, right, bottom } = contour.length > 0 ? boxAround(contour) : observation.box;
  return {
    source: 'model',
    box: [
      fraction(left, photo.width),
      fraction(top, photo.height),
      fraction(right - left, photo.width),
      fraction(bottom - top, photo.height),
    ],
    points,
    headTop: measured({ ...headTop, confidence: headTop.fromOutline ? 0.85 : 0.5 }, photo),
    ...(contour.length > 2 && {
      outline: corners(contour, MOST_OUTLINE_POINTS),
    }),
    ...(gaps.length > 0 && { gaps: gaps.slice(0, MOST_GAPS).map((gap) => corners(gap, MOST_GAP_POINTS)) }),
  };
}

function addAll(to: Map<PointName, WeighedPoint>, points: ReadonlyMap<PointName, WeighedPoint>): void {
  for (const [name, point] of points) to.set(name, point);
}

function measured(point: WeighedPoint, photo: Size): MeasuredPoint {
  return { ...fractions(point, photo), confidence: round(point.confidence, 2) };
}

function fractions(point: Point, photo: Size): Point {
  return { x: fraction(point.x, photo.width), y: fraction(point.y, photo.height) };
}

function fraction(pixels: number, whole: number): number {
  return round(pixels / whole, 4);
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
