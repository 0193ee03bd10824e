import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { largestCentred } from '../../src/geometry/crop.ts';
import { edgesOf, type Edges } from '../../src/geometry/shapes.ts';
import type { PhotoPeople } from '../../src/people/person.ts';
import { configure } from '../../src/rules/configuration.ts';
import { nearestCrop } from '../../src/search/index.ts';
import { faceIn, labelledCuts, labelledSubjects } from './labelled-cuts.ts';
import { cocoPeople, demoPeople } from './support/labelled-people.ts';
import { CUT_RULES, labelledScene } from './support/labelled-scene.ts';
import { hasDemoPhotos, hasLabelledPhotos } from './shared.ts';

const SHAPES = { '2:3': 2 / 3, '4:5': 4 / 5, '1:1': 1, '3:2': 3 / 2, '16:9': 16 / 9 };
const configuration = configure();

interface Outcome {
  readonly clean: boolean;
  readonly explained: boolean;
}

/** Repairs one crop and holds it against the labels; a labelled joint may be cut only where the answer says why. */
function repair(photo: PhotoPeople, shape: number, start: Edges): Outcome {
  const subjects = labelledSubjects(photo);
  const answer = nearestCrop(labelledScene(photo, shape, start), configuration, {});
  if (!answer) return { clean: false, explained: true };
  const crop = edgesOf(answer.crop, photo.size);
  for (const person of subjects) {
    if (faceIn(photo, person, start)) expect(faceIn(photo, person, crop), `face of ${String(person.id)}`).toBe(true);
  }
  const cuts = labelledCuts(photo, crop, subjects);
  const unexplained = cuts.filter(
    (cut) =>
      !answer.broken.some(
        (broken) => broken.person === cut.person && broken.edge === cut.edge && broken.reason() !== '',
      ),
  );
  expect(unexplained, `${photo.photo} at shape ${shape.toFixed(2)}`).toEqual([]);
  return { clean: !answer.broken.some(({ rule }) => CUT_RULES.includes(rule)), explained: cuts.length > 0 };
}

function repairAll(photos: readonly PhotoPeople[]): { pairs: number; clean: number; notClean: string[] } {
  const notClean: string[] = [];
  let pairs = 0;
  for (const photo of photos) {
    for (const [name, shape] of Object.entries(SHAPES)) {
      pairs += 1;
      const outcome = repair(photo, shape, largestCentred(photo.size, 0, shape));
      if (!outcome.clean) notClean.push(`${photo.photo} ${name}`);
    }
  }
  return { pairs, clean: pairs - notClean.length, notClean };
}

function repairFromAnywhere(photos: readonly PhotoPeople[]): void {
  for (const photo of photos) {
    for (const shape of Object.values(SHAPES)) {
      const widest = largestCentred(photo.size, 0, shape);
      const starts = fc.sample(fc.tuple(fc.double({ min: 0.4, max: 1, noNaN: true }), unit(), unit()), {
        numRuns: 20,
        seed: 7,
      });
      for (const [scale, alongX, alongY] of starts) {
        const width = (widest.right - widest.left) * scale;
        const height = (widest.bottom - widest.top) * scale;
        const left = (photo.size.width - width) * alongX;
        const top = (photo.size.height - height) * alongY;
        repair(photo, shape, { left, top, right: left + width, bottom: top + height });
      }
    }
  }
}

function unit(): fc.Arbitrary<number> {
  return fc.double({ min: 0, max: 1, noNaN: true });
}

// Source: COCO 2017 person keypoints (Lin et al., 2014), human labels.
describe.skipIf(!hasLabelledPhotos)('fix on human labels', () => {
  test('no edge within 6 % of a limb of a labelled joint, from the widest centred crop of five shapes', () => {
    const { pairs, clean, notClean } = repairAll(cocoPeople());
    console.info(`coco: ${String(clean)} of ${String(pairs)} clean; not clean: ${notClean.join(', ')}`);
    expect(pairs).toBe(20);
    expect(clean).toBeGreaterThanOrEqual(13);
  });

  test('the same from 20 random crops each', () => {
    repairFromAnywhere(cocoPeople());
  });
});

// Source: our own rendered pictures; labels computed from the figures' joints, exact.
describe.skipIf(!hasDemoPhotos)('fix on exact labels, hands and feet included', () => {
  test('at least 114 of 120 photo and shape pairs end without a cut', () => {
    const { pairs, clean, notClean } = repairAll(demoPeople());
    console.info(`demo: ${String(clean)} of ${String(pairs)} clean; not clean: ${notClean.join(', ')}`);
    expect(pairs).toBe(120);
    expect(clean).toBeGreaterThanOrEqual(114);
  });

  test('the same from 20 random crops each', () => {
    repairFromAnywhere(demoPeople());
  });
});
