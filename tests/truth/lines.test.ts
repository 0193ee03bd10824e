import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { edgesOf, type Size } from '../../src/geometry/shapes.ts';
import { figureOf, type Figure } from '../../src/people/figure.ts';
import { lookingOf } from '../../src/people/looking.ts';
import { narrowPlaces, widePlaces } from '../../src/people/narrow-places.ts';
import { readPeopleLine } from '../../src/people/people-line.ts';
import type { Person } from '../../src/people/person.ts';
import { profileHeights, profileOf, widthProfile } from '../../src/people/width-profile.ts';
import { configure } from '../../src/rules/configuration.ts';
import { sceneOf } from '../../src/rules/scene.ts';
import { levellingCost } from '../../src/rules/tilt/cost.ts';
import { cocoPhotos, demoPhotos, type LabelledPerson, type LabelledPhoto } from './support/labels.ts';
import { cocoPeople, demoPeople } from './support/labelled-people.ts';
import { matchPeople } from './support/match.ts';
import { loadModels, measureLabelled, pixelPoints } from './support/measured.ts';
import { PROJECT_FOLDER } from './support/project.ts';
import { DEMO_PHOTOS, hasDemoPhotos, hasLabelledPhotos } from './shared.ts';
import { heightsOfMask, heightsOfPolygons, polygonsOf, type Heights } from './support/widths.ts';

const MINUTES = 60_000;

interface Rolled {
  readonly images: readonly {
    readonly file_name: string;
    readonly camera_roll_deg: number;
  }[];
}

/** Somebody with the lowest and highest pixel of each column of the mask for an outline. */
function withMaskOutline(person: Person, labelled: LabelledPerson, { size }: LabelledPhoto): Person {
  const outline: { x: number; y: number }[] = [];
  let at = 0;
  labelled.maskRuns!.forEach((run, index) => {
    if (index % 2 === 1) {
      for (const pixel of [at, at + run - 1]) {
        const [x, y] = [Math.floor(pixel / size.height), pixel % size.height];
        for (const [dx, dy] of [[0, 0], [1, 0], [0, 1], [1, 1]] as const) {
          outline.push({ x: (x + dx) / size.width, y: (y + dy) / size.height });
        }
      }
    }
    at += run;
  }); // prettier-ignore
  return { ...person, outline };
}

/** White where the person is seen. */
function maskOf({ maskRuns = [] }: LabelledPerson, { width, height }: Size): Uint8Array {
  const mask = new Uint8Array(width * height);
  let at = 0;
  maskRuns.forEach((run, index) => {
    if (index % 2 === 1) {
      for (let pixel = at; pixel < at + run; pixel++) mask[(pixel % height) * width + Math.floor(pixel / height)] = 255;
    }
    at += run;
  });
  return mask;
}

/** The lowest row with a pixel of these values, its lower end, in pixels of the picture turned about its middle. */
async function lowestInTurned(image: Sharp, degrees: number, height: number, isWanted: (value: number) => boolean) {
  const { data, info } = await image
    .rotate(degrees, { background: '#000' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  for (let row = info.height - 1; row >= 0; row--) {
    for (let column = 0; column < info.width; column++) {
      if (isWanted(data[(row * info.width + column) * info.channels]!)) return row + 1 - (info.height - height) / 2;
    }
  }
  throw new Error('Nothing is there.');
}

// Source: our own rendered pictures; the camera's roll and the masks are exact (README of ../shared/demo-photos). The
// turned pictures are sharp's.
describe.skipIf(!hasDemoPhotos)('what levelling costs', () => {
  const labels = demoPhotos();
  const { images } = JSON.parse(
    hasDemoPhotos ? readFileSync(join(DEMO_PHOTOS, 'labels.json'), 'utf8') : '{"images":[]}',
  ) as Rolled;
  const rolled = demoPeople().flatMap((photo) => {
    const { camera_roll_deg: roll } = images.find(({ file_name: name }) => name === photo.photo)!;
    return roll === 0 ? [] : [{ photo, degrees: -roll, labelled: labels.find(({ name }) => name === photo.photo)! }];
  });

  test('there are photos that lean', () => {
    expect(rolled.length).toBeGreaterThan(8);
  });

  test.each(rolled)(
    '$photo.photo, $degrees°: the gap under the feet is that of the turned picture within 2 px',
    async (each) => {
      const { photo, degrees, labelled } = each;
      const people = photo.people.map((person) =>
        withMaskOutline(
          person,
          labelled.people.find(({ id }) => id === person.id)!,
          labelled,
        ),
      );
      const { size } = photo;
      const whole = edgesOf({ x: 0, y: 0, w: 1, h: 1 }, size);
      const scene = sceneOf({
      photo: size, degrees: 0, crop: whole, shape: size.width / size.height, composition: 'free', askedLength: undefined,
      people, subjects: undefined, tilt: { degrees, confidence: 1 },
    }); // prettier-ignore
      const { under } = levellingCost(scene, degrees, configure());
      if (!under) return;
      const own = maskOf(
        labelled.people.find(({ id }) => id === under.person)!,
        size,
      );
      const picture = (bytes: Uint8Array) => sharp(Buffer.from(bytes), { raw: { ...size, channels: 1 } });
      const feet = await lowestInTurned(picture(own), degrees, size.height, (value) => value > 127);
      // The lower edge of the largest centred crop of the photo's shape that has no empty corner, by trying.
      const white = await picture(new Uint8Array(size.width * size.height).fill(255))
        .rotate(degrees, { background: '#000' })
        .raw()
        .toBuffer({ resolveWithObject: true });
      const isFull = (x: number, y: number) =>
        white.data[(Math.floor(y) * white.info.width + Math.floor(x)) * white.info.channels]! > 127;
      let height = size.height;
      const corner = () => [(height * size.width) / size.height / 2, height / 2] as const;
      const [middleX, middleY] = [white.info.width / 2, white.info.height / 2];
      while (
        ![-1, 1].every((sx) =>
          [-1, 1].every((sy) => isFull(middleX + sx * (corner()[0] - 0.5), middleY + sy * (corner()[1] - 0.5))),
        )
      )
        height -= 0.5;
      const measured = size.height / 2 + height / 2 - feet;
      expect(
        Math.abs(measured - under.after),
        `${measured.toFixed(1)} and ${under.after.toFixed(1)} px`,
      ).toBeLessThanOrEqual(2);
    },
  );
});

/** Somebody who was both measured and labelled. */
interface Pair {
  readonly name: string;
  readonly measured: Figure;
  readonly labelled: Figure;
  readonly points: LabelledPerson['points'];
  readonly truth: (heights: readonly number[]) => Heights;
}

/** Measured people of the sample session, which are those of the rendered photos. */
function demoPairs(): Pair[] {
  const truth = demoPeople();
  const lines = readFileSync(join(PROJECT_FOLDER, 'sample-workspace/harbour/crops.people.jsonl'), 'utf8')
    .trim()
    .split('\n');
  return lines.flatMap((line) => {
    const reading = readPeopleLine(line);
    if ('fault' in reading) throw new Error(reading.fault);
    const { photo, people } = reading.photo;
    const labelled = demoPhotos().find(({ name }) => name === photo)!;
    const matches = matchPeople(labelled.people, people, (person) => pixelPoints(person, labelled));
    return matches.flatMap(({ labelled: own, found }) =>
      pairOf(photo, own, found, labelled, truth, (heights) => heightsOfMask(own, labelled, heights)),
    );
  });
}

function pairOf(
  name: string,
  own: LabelledPerson,
  found: Person | undefined,
  { size }: LabelledPhoto,
  all: ReturnType<typeof demoPeople>,
  truth: Pair['truth'],
): Pair[] {
  const person = all.find(({ photo }) => photo === name)!.people.find(({ id }) => id === own.id);
  if (!found || !person) return [];
  return [
    {
      name: `${name} ${own.id}`,
      measured: figureOf(found, size, 0),
      labelled: figureOf(person, size, 0),
      points: own.points,
      truth,
    },
  ];
}

/** How much narrower a place is than its surroundings: as the rule asks, and clearly so. */
const NARROWER = 0.12;
const CLEARLY = 0.2;
const HARDLY = 0.06;
const WITHIN = 0.03;

function narrowFrom(pair: Pair, narrower: number): number[] {
  const { labelled } = pair;
  const profile = profileOf(labelled, pair.truth(profileHeights(labelled.lines, labelled.height)));
  return narrowPlaces(profile, labelled.height, narrower);
}

function shareNear(places: readonly number[], others: readonly number[], height: number): number {
  return places.filter((place) => others.some((other) => Math.abs(other - place) <= WITHIN * height)).length;
}

function narrowShares(pairs: readonly Pair[]) {
  let [found, right, clear, seen] = [0, 0, 0, 0];
  const wrong: string[] = [];
  for (const pair of pairs) {
    const { measured, labelled, name } = pair;
    const { height } = labelled;
    const ours = narrowPlaces(widthProfile(measured), measured.height, NARROWER);
    const near = shareNear(ours, narrowFrom(pair, HARDLY), height);
    found += ours.length;
    right += near;
    if (near < ours.length) wrong.push(name);
    const true_ = narrowFrom(pair, CLEARLY);
    clear += true_.length;
    seen += shareNear(true_, narrowPlaces(widthProfile(measured), measured.height, HARDLY), height);
  }
  return { found, right, clear, seen, wrong };
}

/** Of the places that the rule calls widest, how many the truth has so: as wide there, and narrower where it is said. */
function wideShares(pairs: readonly Pair[]) {
  let [called, right] = [0, 0];
  const wrong: string[] = [];
  for (const pair of pairs) {
    const { measured, labelled, name } = pair;
    const near = WITHIN * labelled.height;
    const truth = profileOf(labelled, pair.truth(profileHeights(labelled.lines, labelled.height)));
    for (const { from, to, narrow } of widePlaces(widthProfile(measured), measured.height, NARROWER)) {
      const around = (low: number, high: number) =>
        truth.filter(({ y }) => y >= low - near && y <= high + near).map(({ width }) => width);
      called += 1;
      const widest = Math.max(...around(from, to));
      const isRight = Math.min(...around(narrow, narrow)) <= (1 - HARDLY) * widest;
      if (isRight) right += 1;
      else wrong.push(name);
    }
  }
  return { called, right, wrong };
}

/** Where the nose lies between the ears, from the right ear (0) to the left (1); undefined where one of five is not labelled. */
function noseBetweenEars({ points }: Pair): number | undefined {
  const [nose, left, right] = [points.get('nose'), points.get('left_ear'), points.get('right_ear')];
  if (!nose || !left || !right || !points.has('left_eye') || !points.has('right_eye')) return undefined;
  return (nose.x - right.x) / (left.x - right.x);
}

/** Turned heads must be told right, frontal ones must not be told turned; between the two no head may be told the wrong way. */
function expectLooks(pairs: readonly Pair[]): { turned: number; frontal: number } {
  let [turned, frontal] = [0, 0];
  for (const pair of pairs) {
    const share = noseBetweenEars(pair);
    if (share === undefined) continue;
    const looks = lookingOf(pair.measured.points);
    const side = share < 0.5 ? 'left' : 'right';
    if (share < 0.1 || share > 0.9) {
      turned += 1;
      expect(looks, pair.name).toBe(side);
    } else if (share >= 0.3 && share <= 0.7) {
      frontal += 1;
      expect(looks, pair.name).toBe('ahead');
    } else expect(['ahead', side], pair.name).toContain(looks);
  }
  return { turned, frontal };
}

// Source: our own rendered pictures, exact masks and face points; the people as the sample session has them measured.
describe.skipIf(!hasDemoPhotos)('measured people of the rendered photos', () => {
  test('what is called widest is wide in the exact mask, and it narrows where the hint says', () => {
    const { called, right, wrong } = wideShares(demoPairs());
    console.info(`demo: ${right} of ${called} wide places right; not right: ${wrong.join(', ')}`);
    expect(called).toBeGreaterThan(4);
    expect(right / called).toBeGreaterThanOrEqual(0.8);
  });

  test('the direction of a look is right, and nobody who looks ahead is told turned', () => {
    const { turned, frontal } = expectLooks(demoPairs());
    console.info(`demo: ${turned} turned heads, ${frontal} frontal ones`);
    expect(turned).toBeGreaterThan(1);
    expect(frontal).toBeGreaterThan(8);
  });
});

// Source: COCO 2017 and COCO-WholeBody, polygons and points drawn by people.
describe.skipIf(!hasLabelledPhotos || !hasDemoPhotos)(
  'measured people of the COCO photographs and the rendered photos',
  () => {
    const pairs: Pair[] = [];

    beforeAll(async () => {
      const models = await loadModels();
      const truth = cocoPeople();
      for (const { labelled, matches } of await measureLabelled(models, cocoPhotos())) {
        for (const { labelled: own, found } of matches) {
          const polygons = polygonsOf(own, labelled);
          pairs.push(
            ...pairOf(labelled.name, own, found, labelled, truth, (heights) => heightsOfPolygons(polygons, heights)),
          );
        }
      }
      await models.release();
    }, 10 * MINUTES);

    test('narrow places lie within 3 % of the height of those that were drawn, or that the exact masks have', () => {
      const { found, right, clear, seen, wrong } = narrowShares([...pairs, ...demoPairs()]);
      console.info(
        `${right} of ${found} narrow places right; ${seen} of ${clear} clear ones found; not right: ${wrong.join(', ')}`,
      );
      expect(pairs.length).toBeGreaterThan(5);
      expect(found).toBeGreaterThan(5);
      expect(right / found).toBeGreaterThanOrEqual(0.8);
      expect(seen / clear).toBeGreaterThanOrEqual(0.4);
    });

    test('what is called widest is wide as drawn, and it narrows where the hint says', () => {
      const { called, right, wrong } = wideShares(pairs);
      console.info(`coco: ${right} of ${called} wide places right; not right: ${wrong.join(', ')}`);
      expect(right / Math.max(1, called)).toBeGreaterThanOrEqual(0.7);
    });

    test('the direction of a look is right', () => {
      const { turned, frontal } = expectLooks(pairs);
      console.info(`coco: ${turned} turned heads, ${frontal} frontal ones`);
      expect(turned + frontal).toBeGreaterThan(0);
    });
  },
);
