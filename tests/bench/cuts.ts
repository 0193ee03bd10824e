import { existsSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { largestCentred } from '../../src/geometry/crop.ts';
import { edgesOf, type Edges } from '../../src/geometry/shapes.ts';
import type { PhotoPeople } from '../../src/people/person.ts';
import { configure } from '../../src/rules/configuration.ts';
import { sceneOf } from '../../src/rules/scene.ts';
import { nearestCrop } from '../../src/search/index.ts';
import { labelledCuts, labelledSubjects } from '../truth/labelled-cuts.ts';
import { cocoPeople, demoPeople } from '../truth/support/labelled-people.ts';
import { DEMO_PHOTOS, hasDemoPhotos, hasLabelledPhotos, LABELLED_PHOTOS } from '../truth/shared.ts';

const SHAPES = { '2:3': 2 / 3, '4:5': 4 / 5, '1:1': 1, '3:2': 3 / 2, '16:9': 16 / 9 };

type Cropper = (file: string, photo: PhotoPeople, shape: number) => Promise<Edges | undefined>;

/** The crop that sharp's own strategies choose: the widest of the shape, moved to where the strategy looks. */
function bySharp(position: number | string): Cropper {
  return async (file, photo, shape) => {
    const widest = largestCentred(photo.size, 0, shape);
    const width = Math.round(widest.right - widest.left);
    const height = Math.round(widest.bottom - widest.top);
    const { info } = await sharp(file)
      .resize(width, height, { fit: 'cover', position })
      .toBuffer({ resolveWithObject: true });
    const left = -(info.cropOffsetLeft ?? 0);
    const top = -(info.cropOffsetTop ?? 0);
    return { left, top, right: left + width, bottom: top + height };
  };
}

const centre: Cropper = (_file, photo, shape) => Promise.resolve(largestCentred(photo.size, 0, shape));

const selvedge: Cropper = (_file, photo, shape) => {
  const scene = sceneOf({
    photo: photo.size,
    degrees: 0,
    crop: largestCentred(photo.size, 0, shape),
    shape,
    composition: 'thirds',
    askedLength: undefined,
    people: photo.people,
    subjects: undefined,
  });
  const answer = nearestCrop(scene, configure(), {});
  return Promise.resolve(answer && edgesOf(answer.crop, photo.size));
};

const CROPPERS: Readonly<Record<string, Cropper>> = {
  'centre crop': centre,
  'sharp, `attention`': bySharp(sharp.strategy.attention),
  'sharp, `entropy`': bySharp(sharp.strategy.entropy),
  'Selvedge, on the labels': selvedge,
};

/** Share of crops that cut a labelled joint, for five shapes of every labelled photo. */
export async function run(): Promise<string> {
  const sets = [
    ...(hasLabelledPhotos ? [{ name: 'COCO photographs', folder: LABELLED_PHOTOS, photos: cocoPeople() }] : []),
    ...(hasDemoPhotos ? [{ name: 'rendered pictures', folder: DEMO_PHOTOS, photos: demoPeople() }] : []),
  ];
  const rows: string[] = [];
  for (const { name, folder, photos } of sets) {
    for (const [cropper, crop] of Object.entries(CROPPERS)) {
      let crops = 0;
      let cut = 0;
      for (const photo of photos) {
        const file = join(folder, photo.photo);
        if (!existsSync(file)) continue;
        for (const shape of Object.values(SHAPES)) {
          const edges = await crop(file, photo, shape);
          if (!edges) continue;
          crops += 1;
          if (labelledCuts(photo, edges, labelledSubjects(photo)).length > 0) cut += 1;
        }
      }
      rows.push(
        `| ${name} | ${cropper} | ${String(cut)} of ${String(crops)} | ${((100 * cut) / crops).toFixed(1)} % |`,
      );
    }
  }
  return [
    '## Crops that cut a labelled joint',
    '',
    'Five shapes (2:3, 4:5, 1:1, 3:2, 16:9) of every labelled photo; cut means an edge within 6 % of the longest limb of a',
    'labelled elbow, wrist, hip, knee or ankle of a subject, not by the photo’s own edge (tests/truth/labelled-cuts.ts).',
    '',
    '| photographs | crop by | cut | share |',
    '| --- | --- | --- | --- |',
    ...rows,
    '',
  ].join('\n');
}
