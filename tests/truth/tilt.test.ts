import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ModelSet } from '../../src/vision/models/model-set.ts';
import { cocoPhotos, demoPhotos, type LabelledPhoto } from './support/labels.ts';
import { loadModels } from './support/measured.ts';
import { hasShared } from './support/shared-folder.ts';
import { ANSWER, cameraTruths, isForTuning, peopled, summaryOf, turnedCases, type TiltCase } from './support/tilt.ts';

const MINUTES = 60_000;
/** Clockwise, in degrees; the bench has more of them. */
const TURNS = [-4, 0, 1.5];

/**
 * Labelled photos that look level by eye, and why; the others show nothing that stands upright or lies level for certain
 * (two slopes of snow, a playing field with a slanting fence).
 */
const LEVEL_BY_EYE = new Map([
  ['000000040083.jpg', 'the corners of the shop on the left and of the stall on the right stand upright'],
]);

let models: ModelSet;
beforeAll(async () => {
  models = await loadModels();
}, 10 * MINUTES);
afterAll(() => models.release());

async function casesOf(photos: readonly LabelledPhoto[], labels: ReadonlyMap<string, { degrees: number }>) {
  const cases: TiltCase[] = [];
  for (const photo of photos) {
    const picture = await peopled(models, photo);
    cases.push(...turnedCases(photo.name, picture, TURNS, { label: labels.get(photo.name)?.degrees }));
  }
  return cases;
}

describe.skipIf(!hasShared('demo-photos', 'lean and horizon against exact labels'))('rendered photos', () => {
  const truths = cameraTruths();
  let cases: TiltCase[];
  beforeAll(async () => {
    cases = await casesOf(demoPhotos(), truths);
  }, 10 * MINUTES);

  it.each([
    ['tuning', true],
    ['reporting', false],
  ])('of the %s half, turned by known angles, are levelled within a third of a degree', (_, isTuning) => {
    const summary = summaryOf(cases.filter(({ photo }) => isForTuning(photo) === isTuning));
    expect(summary.answered).toBeGreaterThanOrEqual(0.5);
    expect(summary.median).toBeLessThanOrEqual(0.1);
    expect(summary.offByOne).toBeLessThanOrEqual(0.02);
    expect(summary.worst).toBeLessThanOrEqual(0.6);
  });

  it('have the horizon where the sea ends, and none in the studio', () => {
    const unturned = cases.filter(({ turn }) => turn === 0);
    const seen = unturned.filter(({ level }) => (level.horizon?.confidence ?? 0) >= ANSWER);
    expect(seen.length).toBeGreaterThanOrEqual(7);
    for (const { photo, level } of seen) {
      const truth = truths.get(photo)!.horizon;
      expect(truth, photo).toBeDefined();
      expect(Math.abs(level.horizon!.y - truth!), photo).toBeLessThan(0.005);
    }
  });
});

describe.skipIf(!hasShared('labelled-photos', 'lean of photographs that were turned'))('photographs', () => {
  let cases: TiltCase[];
  beforeAll(async () => {
    cases = await casesOf(cocoPhotos(), new Map([...LEVEL_BY_EYE.keys()].map((name) => [name, { degrees: 0 }])));
  }, 10 * MINUTES);

  it('are never off by more than a degree where there is an answer', () => {
    const summary = summaryOf(cases);
    expect(summary.answered).toBeGreaterThan(0.15);
    expect(summary.median).toBeLessThanOrEqual(0.3);
    expect(summary.offByOne).toBe(0);
  });

  it.each([...LEVEL_BY_EYE])('%s is level: %s', (name) => {
    const { level } = cases.find(({ photo, turn }) => photo === name && turn === 0)!;
    expect(level.tilt!.confidence).toBeGreaterThanOrEqual(ANSWER);
    expect(Math.abs(level.tilt!.degrees)).toBeLessThan(0.7);
  });
});
