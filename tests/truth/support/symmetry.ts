import { turnPoint } from '../../../src/geometry/turning.ts';
import type { Symmetry } from '../../../src/people/person.ts';
import { decodePhoto } from '../../../src/photos/decode.ts';
import { Pyramid } from '../../../src/vision/image/pyramid.ts';
import { findSymmetry } from '../../../src/vision/lines/symmetry.ts';
import { Random } from '../../scenes/random.ts';
import type { MeasuredPhoto } from './measured.ts';
import { cutOf, mirroredPicture } from './mirrored.ts';
import { turnedPicture, type PeopledPicture } from './turned.ts';

/** Pictures are mirrored and cut at this size: symmetry is looked for in a smaller one. */
const LONG_EDGE = 640;
/** Cuts, and mirrored pictures, of each photo. */
const EACH = 4;
const MOST_TURN = 4;

/** A picture that is symmetric because it was made so, and what is said of it. */
export interface SymmetryCase {
  /** Where its axis crosses the middle row, as a fraction of its width. */
  readonly axis: number;
  readonly answer: Symmetry | undefined;
}

/** The photos at the size at which they are cut and mirrored, with their measured people. */
export async function smallPictures(photos: readonly MeasuredPhoto[]): Promise<PeopledPicture[]> {
  const all: PeopledPicture[] = [];
  for (const { labelled, measured } of photos) {
    all.push({ pixels: (await decodePhoto(labelled.path, LONG_EDGE)).pixels, people: measured.people });
  }
  return all;
}

/** What is said of cuts of photos. */
export function cutCases(pictures: readonly PeopledPicture[]): (Symmetry | undefined)[] {
  const random = new Random(11);
  return pictures.flatMap((picture) => times(EACH, () => symmetryOf(cutOf(picture, random))));
}

/** What is said of parts of photos that are joined with their mirror images. */
export function mirroredCases(pictures: readonly PeopledPicture[]): SymmetryCase[] {
  const random = new Random(5);
  return pictures.flatMap((picture) =>
    times(EACH, () => {
      const mirrored = mirroredPicture(picture, random);
      return { axis: mirrored.axis, answer: symmetryOf(mirrored) };
    }),
  );
}

/** The same, turned by an angle that is told as the photo's lean. */
export function leaningCases(pictures: readonly PeopledPicture[]): SymmetryCase[] {
  const random = new Random(3);
  return pictures.map((picture) => {
    const mirrored = mirroredPicture(picture, random);
    const degrees = random.between(-MOST_TURN, MOST_TURN);
    const { width, height } = mirrored.pixels;
    const turned = turnedPicture(mirrored, degrees);
    // The axis goes through these two places; where does it cross the middle row?
    const [from, to] = [0, height].map((y) => turnPoint({ x: mirrored.axis * width, y }, mirrored.pixels, degrees));
    const share = (height / 2 - from!.y) / (to!.y - from!.y);
    const x = from!.x + share * (to!.x - from!.x) - (width - turned.pixels.width) / 2;
    const tilt = { degrees: -degrees, confidence: 1 };
    return {
      axis: x / turned.pixels.width,
      answer: findSymmetry(new Pyramid(turned.pixels), turned.people, tilt),
    };
  });
}

/** How far off the axes are that are told, as shares of the width. */
export function axisErrors(cases: readonly SymmetryCase[]): number[] {
  return cases.flatMap(({ axis, answer }) => (answer ? [Math.abs(answer.x - axis)] : []));
}

function symmetryOf({ pixels, people }: PeopledPicture): Symmetry | undefined {
  return findSymmetry(new Pyramid(pixels), people);
}

function times<T>(count: number, make: () => T): T[] {
  return Array.from({ length: count }, make);
}
