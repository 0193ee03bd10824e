import { beforeAll, describe, expect, it } from 'vitest';
import { FIRM } from '../../src/people/confidence.ts';
import { BODY_POINTS, type PointName } from '../../src/people/points.ts';
import type { ModelSet } from '../../src/vision/models/model-set.ts';
import { foundPeople, median, pointErrors, shareWithin } from './support/errors.ts';
import { answerCuts, finishedCuts, shareReported } from './support/finished.ts';
import { falseAlarms, jointsReported, totalOf } from './support/joint-edges.ts';
import { cocoPhotos, demoPhotos, sizeOfPerson } from './support/labels.ts';
import { loadModels, measureLabelled, type MeasuredPhoto } from './support/measured.ts';
import { outlineOverlap } from './support/outlines.ts';
import { hasShared } from './support/shared-folder.ts';

/*
 * Measured people against labels. Each floor is near the figure measured when it was written, so that a change for the
 * worse is seen. Errors are in percent of the longer side of the labelled box.
 */

const MINUTES = 60_000;
const isBodyJoint = (name: PointName): boolean => (BODY_POINTS as readonly PointName[]).slice(5).includes(name);

function medianError(photos: readonly MeasuredPhoto[], kind: string): number {
  return median(pointErrors(photos, (name) => isKind(name, kind)).map(({ percent }) => percent));
}

function isKind(name: string, kind: string): boolean {
  return name === kind || name.slice(name.indexOf('_') + 1) === kind;
}

function meanSimilarity(photos: readonly MeasuredPhoto[]): number {
  const all = photos.flatMap(({ matches }) => matches.map(({ oks }) => oks));
  return all.reduce((sum, oks) => sum + oks, 0) / all.length;
}

/** Share of the body joints a rule may speak firmly about that lie within 5 % of the person's size. */
function firmWithinFive(photos: readonly MeasuredPhoto[]): number {
  const firm = pointErrors(photos, isBodyJoint).filter(({ confidence }) => confidence >= FIRM);
  return shareWithin(
    firm.map(({ percent }) => percent),
    5,
  );
}

function everySixth<T>(list: readonly T[]): T[] {
  return list.filter((_, index) => index % 6 === 0);
}

let models: ModelSet;
beforeAll(async () => {
  models = await loadModels();
}, 5 * MINUTES);

describe.skipIf(!hasShared('labelled-photos', 'measured people against human labels'))(
  'COCO photographs, human labels',
  () => {
    let photos: MeasuredPhoto[];
    beforeAll(async () => {
      photos = await measureLabelled(models, cocoPhotos());
    }, 5 * MINUTES);

    it('finds the people', () => {
      expect(photos.flatMap(({ matches }) => matches)).toHaveLength(12);
      expect(foundPeople(photos).length).toBeGreaterThanOrEqual(11);
      expect(meanSimilarity(photos)).toBeGreaterThanOrEqual(0.87);
      expect(photos.flatMap(({ measured }) => measured.people)).toHaveLength(12);
    });

    it.each([
      ['shoulder', 2.1],
      ['elbow', 1.8],
      ['wrist', 3.1],
      ['hip', 3.0],
      ['knee', 1.5],
      ['ankle', 2.2],
    ])('places the %s within %d percent (median)', (kind, limit) => {
      expect(medianError(photos, kind)).toBeLessThanOrEqual(limit);
    });

    it('is right about at least nine of ten body joints that it is sure of', () => {
      expect(firmWithinFive(photos)).toBeGreaterThanOrEqual(0.9);
    });

    it('reports a crop edge on a joint, and none at the middle of a bone', () => {
      expect(totalOf(jointsReported(photos))).toBeGreaterThanOrEqual(0.84);
      expect(totalOf(falseAlarms(photos))).toBeLessThanOrEqual(0.03);
    });
  },
);

describe.skipIf(!hasShared('demo-photos', 'measured people against exact labels'))(
  'rendered photos, exact labels',
  () => {
    let photos: MeasuredPhoto[];
    beforeAll(async () => {
      photos = await measureLabelled(models, demoPhotos());
    }, 10 * MINUTES);

    it('finds all 33 figures and nobody else', () => {
      expect(photos.flatMap(({ matches }) => matches)).toHaveLength(33);
      expect(foundPeople(photos)).toHaveLength(33);
      expect(photos.flatMap(({ measured }) => measured.people)).toHaveLength(33);
      expect(meanSimilarity(photos)).toBeGreaterThanOrEqual(0.95);
    });

    it.each([
      ['shoulder', 2.3],
      ['elbow', 1.2],
      ['wrist', 0.9],
      ['hip', 1.8],
      ['knee', 1.0],
      ['ankle', 0.9],
      ['big_toe', 2.2],
      ['heel', 1.6],
      ['forefinger1', 1.0],
      ['pinky_finger1', 1.5],
      ['middle_finger4', 1.3],
    ])('places the %s within %d percent (median)', (kind, limit) => {
      expect(medianError(photos, kind)).toBeLessThanOrEqual(limit);
    });

    it('is right about at least nine of ten body joints that it is sure of', () => {
      expect(firmWithinFive(photos)).toBeGreaterThanOrEqual(0.9);
    });

    it('reports a crop edge on a joint, and none at the middle of a bone', () => {
      expect(totalOf(jointsReported(photos))).toBeGreaterThanOrEqual(0.95);
      expect(totalOf(falseAlarms(photos))).toBeLessThanOrEqual(0.03);
    });

    it('finds the head top', () => {
      const errors = foundPeople(photos).flatMap(({ photo, labelled, found }) => {
        if (labelled.headTop === undefined || found.headTop === undefined) return [];
        return [(100 * Math.abs(found.headTop.y * photo.size.height - labelled.headTop.y)) / sizeOfPerson(labelled)];
      });
      expect(errors.length).toBeGreaterThan(25);
      expect(median(errors)).toBeLessThanOrEqual(0.3);
      expect(shareWithin(errors, 3)).toBeGreaterThanOrEqual(0.95);
    });

    it('draws the outline', () => {
      const overlaps = foundPeople(photos).map(outlineOverlap);
      expect(median(overlaps)).toBeGreaterThanOrEqual(0.94);
      expect(Math.min(...overlaps)).toBeGreaterThanOrEqual(0.85);
      for (const { found } of foundPeople(photos)) expect(found.outline?.length).toBeLessThanOrEqual(64);
    });

    it(
      'notices in a finished picture that its edge cuts a joint, at no more false alarms than the prototype had',
      async () => {
        // Every sixth cut; the whole table is in the bench. The prototype's figures, on other photos (notes on vision): 65,
        // 59, 78 and 11 % of cuts at knee, ankle, hip and wrist; false alarms 24 % at mid-thigh, 18 % at mid-shin.
        const cuts = finishedCuts(demoPhotos()).filter(({ offset }) => offset === 0);
        const joints = cuts.filter(({ place }) => !place.startsWith('mid-'));
        const middles = cuts.filter(({ place }) => place.startsWith('mid-'));
        const reported = await answerCuts(models, everySixth(joints));
        const alarms = await answerCuts(models, everySixth(middles));
        expect(shareReported(reported, () => true)).toBeGreaterThanOrEqual(0.85);
        expect(shareReported(alarms, () => true)).toBeLessThanOrEqual(0.18);
      },
      10 * MINUTES,
    );
  },
);
