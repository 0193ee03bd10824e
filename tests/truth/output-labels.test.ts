import { describe, expect, test } from 'vitest';
import { largestCentred } from '../../src/geometry/crop.ts';
import { edgesOf, heightOf, type Edges, widthOf } from '../../src/geometry/shapes.ts';
import { parseManifest } from '../../src/manifest/parse.ts';
import { foundLength } from '../../src/people/length-spans.ts';
import { rungOf } from '../../src/people/lengths.ts';
import type { PhotoPeople } from '../../src/people/person.ts';
import { configure } from '../../src/rules/configuration.ts';
import { checkScene } from '../../src/rules/report.ts';
import { withCrop, type Scene } from '../../src/rules/scene.ts';
import { nearestCrop } from '../../src/search/index.ts';
import { RULE_CATALOGUE } from '../../src/session/file-rules.ts';
import { outputCrop } from '../../src/session/outputs/output-crop.ts';
import { faceIn, labelledCuts, labelledSubjects } from './labelled-cuts.ts';
import { hasDemoPhotos, hasLabelledPhotos } from './shared.ts';
import { cocoPeople, demoPeople } from './support/labelled-people.ts';
import { CUT_RULES, labelledScene } from './support/labelled-scene.ts';

const SHAPES = ['2:3', '4:5', '1:1', '16:9'] as const;
const configuration = configure();

const manifest = parseManifest(
  `selvedge: 1\ndeliver:\n${SHAPES.map((shape, place) => `  output-${place}: { aspect: "${shape}" }\n`).join('')}frames:\n  - photo: a.jpg\n`,
  RULE_CATALOGUE,
);
const frame = manifest.frames[0]!;

/** The frame with a main crop of the photo's own shape that cuts nobody; undefined when there is none. */
function cleanMain(photo: PhotoPeople): Scene | undefined {
  const { size } = photo;
  const shape = size.width / size.height;
  const start = labelledScene(photo, shape, largestCentred(size, 0, shape));
  const answer = nearestCrop(start, configuration);
  if (!answer || answer.broken.some(({ rule }) => CUT_RULES.includes(rule))) return undefined;
  const main = withCrop(start, answer.edges);
  return labelledCuts(photo, main.crop, labelledSubjects(photo)).length > 0 ? undefined : main;
}

const WIDTHS = 16;
const PLACES = 14;

/**
 * Whether a grid of crops of this shape has one with every face of the main crop in, at most one length closer, in which
 * neither a labelled joint is cut nor a rule about cuts speaks. Knows nothing of the program's search.
 */
function hasCleanCrop(photo: PhotoPeople, main: Scene, shape: number): boolean {
  const subjects = labelledSubjects(photo);
  const faces = subjects.filter((person) => faceIn(photo, person, main.crop));
  const widest = largestCentred(photo.size, 0, shape);
  for (let step = WIDTHS; step > WIDTHS / 4; step--) {
    const [width, height] = [(widthOf(widest) * step) / WIDTHS, (heightOf(widest) * step) / WIDTHS];
    for (let place = 0; place < PLACES * PLACES; place++) {
      const left = ((photo.size.width - width) * (place % PLACES)) / (PLACES - 1);
      const top = ((photo.size.height - height) * Math.floor(place / PLACES)) / (PLACES - 1);
      const crop = { left, top, right: left + width, bottom: top + height };
      if (!faces.every((person) => faceIn(photo, person, crop))) continue;
      if (labelledCuts(photo, crop, subjects).length > 0 || isTooClose(main, crop)) continue;
      const found = checkScene(withCrop({ ...main, shape }, crop), configuration);
      if (!found.some(({ rule, severity }) => CUT_RULES.includes(rule) && severity !== 'info')) return true;
    }
  }
  return false;
}

function isTooClose(main: Scene, crop: Edges): boolean {
  const { tallest } = main;
  return tallest !== undefined && rungOf(foundLength(tallest, crop)) > rungOf(foundLength(tallest, main.crop)) + 1;
}

interface Tally {
  readonly photos: number;
  readonly pairs: number;
  readonly clean: number;
  /** Not clean, and no grid has a clean one either. */
  readonly impossible: string[];
}

/** Holds the crop of each output against the labels: clean wherever a clean one exists, and never a cut that is not told. */
function outputsOf(photos: readonly PhotoPeople[]): Tally {
  const impossible: string[] = [];
  let [withMain, pairs, clean] = [0, 0, 0];
  for (const photo of photos) {
    const main = cleanMain(photo);
    if (!main) continue;
    withMain += 1;
    SHAPES.forEach((name, place) => {
      pairs += 1;
      const what = `${photo.photo} ${name}`;
      const found = outputCrop(main, configuration, frame, manifest.deliver.get(`output-${place}`)!);
      const cuts =
        'reason' in found ? [] : labelledCuts(photo, edgesOf(found.crop, photo.size), labelledSubjects(photo));
      const told = 'reason' in found ? [] : checkScene(found.scene, configuration).filter(({ rule }) => CUT_RULES.includes(rule)); // prettier-ignore
      for (const cut of cuts) {
        expect(told.some(({ person, edge }) => person === cut.person && edge === cut.edge), `${what}: ${cut.joint}`).toBe(true); // prettier-ignore
      }
      if (!('reason' in found) && cuts.length === 0 && told.length === 0) clean += 1;
      else {
        const [a, b] = name.split(':').map(Number) as [number, number];
        const upright = heightOf(main.crop) > widthOf(main.crop);
        expect(hasCleanCrop(photo, main, upright ? Math.min(a / b, b / a) : Math.max(a / b, b / a)), what).toBe(false);
        impossible.push(what);
      }
    });
  }
  return { photos: withMain, pairs, clean, impossible };
}

function tell(name: string, { photos, pairs, clean, impossible }: Tally): void {
  const rest = impossible.length === 0 ? '' : `; no clean crop of that shape: ${impossible.join(', ')}`;
  console.info(`outputs, ${name}: ${photos} clean main crops, ${clean} of ${pairs} crops of outputs clean${rest}`);
}

// Source: COCO 2017 person keypoints (Lin et al., 2014), human labels.
describe.skipIf(!hasLabelledPhotos)('crops of outputs on human labels', () => {
  test('from a clean main crop 2:3, 4:5, 1:1 and 16:9 cut no labelled joint where a clean crop exists', () => {
    const tally = outputsOf(cocoPeople());
    tell('coco', tally);
    expect(tally.photos).toBeGreaterThan(0);
  });
});

// Source: our own rendered pictures; labels computed from the figures' joints, exact.
describe.skipIf(!hasDemoPhotos)('crops of outputs on exact labels', () => {
  test('from a clean main crop 2:3, 4:5, 1:1 and 16:9 cut no labelled joint where a clean crop exists', () => {
    const tally = outputsOf(demoPeople());
    tell('demo', tally);
    expect(tally.photos).toBeGreaterThan(20);
  });
});
