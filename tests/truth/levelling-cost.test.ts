import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { describe, expect, test } from 'vitest';
import { edgesOf, type Size } from '../../src/geometry/shapes.ts';
import type { Person } from '../../src/people/person.ts';
import { configure } from '../../src/rules/configuration.ts';
import { sceneOf } from '../../src/rules/scene.ts';
import { levellingCost } from '../../src/rules/tilt/cost.ts';
import { demoPhotos, type LabelledPerson, type LabelledPhoto } from './support/labels.ts';
import { demoPeople } from './support/labelled-people.ts';
import { DEMO_PHOTOS, hasDemoPhotos } from './shared.ts';

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
