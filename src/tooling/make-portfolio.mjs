// @ts-check
/** Makes the finished pictures of sample-workspace/portfolio from the sample session's photos: cropped, some badly. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { project } from './steps.mjs';

const LONG_EDGE = 1500;

/** Left, top, width, height in fractions of the photo. */
const PICTURES = /** @type {const} */ ([
  // Good as it is.
  { name: 'walking-on-the-boardwalk', photo: 'boardwalk-03', crop: [0.2, 0.05, 0.53, 0.93] },
  // The lower edge through both knees.
  { name: 'green-dress', photo: 'boardwalk-01', crop: [0.2, 0.06, 0.6, 0.65] },
  // Much room over the head.
  { name: 'on-the-bench', photo: 'boardwalk-06', crop: [0.18, 0, 0.5, 0.97] },
  // Ankles cut, as when a levelled picture lost its lower margin.
  { name: 'by-the-door', photo: 'studio-04', crop: [0.24, 0.03, 0.56, 0.84] },
  // A close portrait.
  { name: 'dark-glasses', photo: 'boardwalk-08', crop: [0.12, 0.08, 0.8, 0.66] },
  // The lower edge through the folded hands.
  { name: 'on-the-box', photo: 'studio-03', crop: [0.18, 0.08, 0.66, 0.52] },
]);

const folder = join(project, 'sample-workspace', 'portfolio');
mkdirSync(folder, { recursive: true });
for (const { name, photo, crop } of PICTURES) {
  const source = join(project, 'sample-workspace', 'harbour', 'proofs', `${photo}.jpg`);
  const { width, height } = await sharp(source).metadata();
  const [left, top, wide, high] = crop;
  await sharp(source)
    .extract({
      left: Math.round(left * width),
      top: Math.round(top * height),
      width: Math.round(wide * width),
      height: Math.round(high * height),
    })
    .resize(LONG_EDGE, LONG_EDGE, { fit: 'inside', withoutEnlargement: true })
    .jpeg({ quality: 88 })
    .toFile(join(folder, `${name}.jpg`));
  console.log(`made ${name}.jpg`);
}
