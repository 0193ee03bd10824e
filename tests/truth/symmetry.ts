import { describe, expect, it } from 'vitest';
import { turnPoint } from '../../src/geometry/turning.ts';
import { decodePhoto } from '../../src/photos/decode.ts';
import { Pyramid } from '../../src/vision/image/pyramid.ts';
import { findSymmetry } from '../../src/vision/lines/symmetry.ts';
import { Random } from '../scenes/random.ts';
import { shareWithin } from './support/errors.ts';
import type { MeasuredPhoto } from './support/measured.ts';
import { cutOf, mirroredPicture } from './support/mirrored.ts';
import { turnedPicture, type PeopledPicture } from './support/turned.ts';

/** Pictures are mirrored and cut at this size: symmetry is looked for in a smaller one. */
const LONG_EDGE = 640;
/** Cuts, and mirrored pictures, of each photo. */
const EACH = 4;
/** How far off the axis may be, as a share of the width. */
const NEAR = 0.012;
const MOST_TURN = 4;

/**
 * The axis of symmetry of pictures that are symmetric because they were made so, of parts of the photos and their mirror
 * images; photos as they are, and cuts of them, have none.
 */
export function describeSymmetry(photos: () => readonly MeasuredPhoto[], leastAnswered: number): void {
  describe('symmetry', () => {
    it('is not found in photos as they are, nor in cuts of them', async () => {
      for (const { labelled, measured } of photos()) expect(measured.symmetry, labelled.name).toBeUndefined();
      const random = new Random(11);
      for (const picture of await pictures(photos())) {
        for (let cut = 0; cut < EACH; cut++) expect(symmetryOf(cutOf(picture, random))).toBeUndefined();
      }
    });

    it('is found where a part of a photo is joined with its mirror image, and there alone', async () => {
      const random = new Random(5);
      const errors: number[] = [];
      let asked = 0;
      for (const picture of await pictures(photos())) {
        for (let each = 0; each < EACH; each++) {
          const mirrored = mirroredPicture(picture, random);
          const answer = symmetryOf(mirrored);
          asked += 1;
          if (answer) errors.push(Math.abs(answer.x - mirrored.axis));
        }
      }
      expect(shareWithin(errors, NEAR)).toBe(1);
      expect(errors.length / asked, `${errors.length} of ${asked}`).toBeGreaterThanOrEqual(leastAnswered);
    });

    it('is found at its place in the middle row of a photo that leans', async () => {
      const random = new Random(3);
      const errors: number[] = [];
      for (const picture of await pictures(photos())) {
        const mirrored = mirroredPicture(picture, random);
        const degrees = random.between(-MOST_TURN, MOST_TURN);
        const { width, height } = mirrored.pixels;
        const turned = turnedPicture(mirrored, degrees);
        const tilt = { degrees: -degrees, confidence: 1 };
        const answer = findSymmetry(new Pyramid(turned.pixels), turned.people, tilt);
        if (!answer) continue;
        // The axis goes through these two places; where does it cross the middle row?
        const [from, to] = [0, height].map((y) => turnPoint({ x: mirrored.axis * width, y }, mirrored.pixels, degrees));
        const share = (height / 2 - from!.y) / (to!.y - from!.y);
        const x = from!.x + share * (to!.x - from!.x) - (width - turned.pixels.width) / 2;
        errors.push(Math.abs(answer.x - x / turned.pixels.width));
      }
      expect(errors.length).toBeGreaterThan(2);
      expect(shareWithin(errors, NEAR)).toBe(1);
    });
  });
}

function symmetryOf({ pixels, people }: PeopledPicture): ReturnType<typeof findSymmetry> {
  return findSymmetry(new Pyramid(pixels), people);
}

async function pictures(photos: readonly MeasuredPhoto[]): Promise<PeopledPicture[]> {
  const all: PeopledPicture[] = [];
  for (const { labelled, measured } of photos) {
    all.push({ pixels: (await decodePhoto(labelled.path, LONG_EDGE)).pixels, people: measured.people });
  }
  return all;
}
