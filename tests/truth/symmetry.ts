import { describe, expect, it } from 'vitest';
import { shareWithin } from './support/errors.ts';
import type { MeasuredPhoto } from './support/measured.ts';
import { axisErrors, cutCases, leaningCases, mirroredCases, smallPictures } from './support/symmetry.ts';

/** How far off the axis may be, as a share of the width. */
const NEAR = 0.012;

/** The axis of pictures that are symmetric because they were made so, of parts of photos and their mirror images. */
export function describeSymmetry(photos: () => readonly MeasuredPhoto[], leastAnswered: number): void {
  describe('symmetry', () => {
    it('is not found in photos as they are, nor in cuts of them', async () => {
      for (const { labelled, measured } of photos()) expect(measured.symmetry, labelled.name).toBeUndefined();
      const cuts = cutCases(await smallPictures(photos()));
      expect(cuts.length).toBeGreaterThanOrEqual(16);
      expect(cuts.filter((answer) => answer !== undefined)).toEqual([]);
    });

    it('is found where a part of a photo is joined with its mirror image, and there alone', async () => {
      const cases = mirroredCases(await smallPictures(photos()));
      const errors = axisErrors(cases);
      expect(shareWithin(errors, NEAR)).toBe(1);
      expect(errors.length / cases.length, `${errors.length} of ${cases.length}`).toBeGreaterThanOrEqual(leastAnswered);
    });

    it('is found at its place in the middle row of a photo that leans', async () => {
      const errors = axisErrors(leaningCases(await smallPictures(photos())));
      expect(errors.length).toBeGreaterThan(2);
      expect(shareWithin(errors, NEAR)).toBe(1);
    });
  });
}
