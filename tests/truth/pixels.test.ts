import { beforeAll, describe, expect, it } from 'vitest';
import { FIRM } from '../../src/people/confidence.ts';
import type { PointName } from '../../src/people/points.ts';
import type { ModelSet } from '../../src/vision/models/model-set.ts';
import { describeLooks } from './looks.ts';
import { describeOutlines } from './body-outlines.ts';
import { foundPeople, pointErrors, shareWithin } from './support/errors.ts';
import { median } from './support/median.ts';
import { finishedCuts, isBoneCut, WELL_CLEAR, type FinishedCut } from './support/finished-cuts.ts';
import { answerCuts, shareOf } from './support/finished.ts';
import { falseAlarms, jointsReported, totalOf } from './support/joint-edges.ts';
import { cocoPhotos, demoPhotos, sizeOfPerson } from './support/labels.ts';
import { loadModels, measureLabelled, type MeasuredPhoto } from './support/measured.ts';
import { hasShared } from './support/shared-folder.ts';
import { describeSymmetry } from './symmetry.ts';

/*
 * Measured people against labels. Each floor is near the figure measured when it was written, so that a change for the
 * worse is seen. Errors are in percent of the longer side of the labelled box.
 */

const MINUTES = 60_000;
/** Labelled points of a kind from which on its share of right ones is asked for, and firm points that make a share. */
const ENOUGH = 15;
const FEW = 8;

function medianError(photos: readonly MeasuredPhoto[], kind: string): number {
  return median(pointErrors(photos, (name) => kindOf(name) === kind).map(({ percent }) => percent));
}

function kindOf(name: PointName): string {
  return name.slice(name.indexOf('_') + 1);
}

function meanSimilarity(photos: readonly MeasuredPhoto[]): number {
  const all = photos.flatMap(({ matches }) => matches.map(({ oks }) => oks));
  return all.reduce((sum, oks) => sum + oks, 0) / all.length;
}

/** Every kind of point with enough labels of its own to say something about it. */
function kindsWithEnough(photos: readonly MeasuredPhoto[]): string[] {
  const counts = new Map<string, number>();
  for (const { labelled } of foundPeople(photos)) {
    for (const name of labelled.points.keys()) counts.set(kindOf(name), (counts.get(kindOf(name)) ?? 0) + 1);
  }
  return [...counts].flatMap(([kind, count]) => (count >= ENOUGH ? [kind] : []));
}

/**
 * Of the points of each kind that a rule may speak firmly about, the share within 5 % of the person's size. Kinds with
 * hardly a firm point are left out: there is nothing to be wrong about.
 */
function firmWithinFive(photos: readonly MeasuredPhoto[]): Map<string, { firm: number; share: number }> {
  const shares = kindsWithEnough(photos).flatMap((kind): [string, { firm: number; share: number }][] => {
    const errors = pointErrors(photos, (name) => kindOf(name) === kind);
    const firm = errors.filter(({ confidence }) => confidence >= FIRM).map(({ percent }) => percent);
    return firm.length < FEW ? [] : [[kind, { firm: firm.length, share: shareWithin(firm, 5) }]];
  });
  return new Map(shares);
}

function expectFirmIsRight(photos: readonly MeasuredPhoto[]): void {
  const kinds = firmWithinFive(photos);
  for (const kind of ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle']) expect(kinds.has(kind), kind).toBe(true);
  for (const [kind, { firm, share }] of kinds) {
    expect(share, `${kind}: ${String(firm)} called firm`).toBeGreaterThanOrEqual(0.9);
  }
}

async function shareReported(cuts: readonly FinishedCut[]): Promise<number> {
  return shareOf(await answerCuts(models, cuts), () => true).share;
}

function isLegBone(cut: FinishedCut): boolean {
  return isBoneCut(cut) && cut.edge === 'bottom';
}

function every<T>(step: number, list: readonly T[]): T[] {
  return list.filter((_, index) => index % step === 0);
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

    it('is right about at least nine of ten points of every kind that it is sure of', () => {
      expectFirmIsRight(photos);
    });

    // Polygons drawn by people (COCO 2017).
    describeOutlines(() => photos, { overlap: [0.82, 0.7], width: 0.95, found: 0.8, seen: 0.5, called: 0.85 });
    describeLooks(() => photos, { turned: 0, frontal: 3 });
    describeSymmetry(() => photos, 0.9);

    it('reports a crop edge on a joint, and none at the middle of a bone', () => {
      expect(totalOf(jointsReported(photos))).toBeGreaterThanOrEqual(0.84);
      expect(totalOf(falseAlarms(photos))).toBeLessThanOrEqual(0.03);
    });

    it(
      'is mostly silent about a finished picture cut along a leg’s bone, and not about one cut at a leg’s joint',
      async () => {
        const cuts = finishedCuts(cocoPhotos());
        const bones = cuts.filter((cut) => isLegBone(cut) && cut.clear > WELL_CLEAR);
        const joints = cuts.filter(({ place, offset }) => offset === 0 && ['hip', 'knee', 'ankle'].includes(place));
        expect(bones.length).toBeGreaterThanOrEqual(40);
        expect(await shareReported(bones)).toBeLessThanOrEqual(0.2);
        expect(await shareReported(every(2, joints))).toBeGreaterThanOrEqual(0.65);
      },
      20 * MINUTES,
    );
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

    it('is right about at least nine of ten points of every kind that it is sure of', () => {
      expectFirmIsRight(photos);
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

    describeOutlines(() => photos, { overlap: [0.965, 0.9], width: 0.25, found: 0.7, seen: 0.75, called: 0.85 });
    describeLooks(() => photos, { turned: 2, frontal: 9 });
    describeSymmetry(() => photos, 0.45);

    it(
      'notices in a finished picture that its edge cuts a joint, and is silent along a bone',
      async () => {
        // Every eighteenth cut; the whole table is in the bench. The prototype's figures, on other photos (notes on vision):
        // 65, 59, 78 and 11 % of cuts at knee, ankle, hip and wrist; false alarms 24 % at mid-thigh, 18 % at mid-shin.
        const cuts = finishedCuts(demoPhotos());
        const joints = cuts.filter((cut) => !isBoneCut(cut) && cut.offset === 0);
        expect(await shareReported(every(18, joints))).toBeGreaterThanOrEqual(0.85);
        expect(await shareReported(every(18, cuts.filter(isLegBone)))).toBeLessThanOrEqual(0.1);
      },
      10 * MINUTES,
    );
  },
);
