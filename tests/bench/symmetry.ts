import { Pyramid } from '../../src/vision/image/pyramid.ts';
import { findSymmetry } from '../../src/vision/lines/symmetry.ts';
import { median } from '../truth/support/median.ts';
import { cocoPhotos, demoPhotos } from '../truth/support/labels.ts';
import { loadModels, measureLabelled, type MeasuredPhoto } from '../truth/support/measured.ts';
import { hasShared } from '../truth/support/shared-folder.ts';
import {
  axisErrors,
  cutCases,
  leaningCases,
  mirroredCases,
  smallPictures,
  type SymmetryCase,
} from '../truth/support/symmetry.ts';

/** How surely the line of symmetry of pictures is told that were made symmetric, and that others are said to have none. */
export async function run(): Promise<string> {
  if (!hasShared('labelled-photos', 'bench of symmetry') || !hasShared('demo-photos', 'bench of symmetry')) {
    return '## Symmetry\n\nNot run: the labelled photos are not there.\n';
  }
  const models = await loadModels();
  const rendered = await measureLabelled(models, demoPhotos());
  const photographs = await measureLabelled(models, cocoPhotos());
  await models.release();
  return [
    '## Symmetry',
    '',
    'Symmetric pictures are made of a part of a photo and its mirror image, cut so that the axis lies beside the middle; one side is lighter by up to 30 %, every pixel differs by up to 8 of 255. Leaning ones are turned by up to 4°, which is told. Photos as they are, and cuts of them, are of no made symmetry. The thresholds were chosen on other parts and cuts of the same photos.',
    '',
    '| photos | photos and cuts told symmetric | made symmetric: answered, error median, worst | leaning: answered, error median, worst |',
    '| --- | --- | --- | --- |',
    await row('rendered pictures', rendered),
    await row('COCO photographs', photographs),
    '',
    await time(photographs),
  ].join('\n');
}

async function row(name: string, photos: readonly MeasuredPhoto[]): Promise<string> {
  const pictures = await smallPictures(photos);
  const asTheyAre = [...photos.map(({ measured }) => measured.symmetry), ...cutCases(pictures)];
  const told = asTheyAre.filter((answer) => answer !== undefined).length;
  const made = [mirroredCases(pictures), leaningCases(pictures)].map(words).join(' | ');
  return `| ${name} | ${told} of ${asTheyAre.length} | ${made} |`;
}

function words(cases: readonly SymmetryCase[]): string {
  const errors = axisErrors(cases);
  const percents = [median(errors), Math.max(...errors)].map((error) => `${(100 * error).toFixed(2)} %`);
  return `${errors.length} of ${cases.length}, ${percents.join(', ')}`;
}

async function time(photos: readonly MeasuredPhoto[]): Promise<string> {
  const pictures = await smallPictures(photos);
  const start = process.cpuUsage();
  for (const { pixels, people } of pictures) findSymmetry(new Pyramid(pixels), people);
  const { user, system } = process.cpuUsage(start);
  return `CPU milliseconds a photo: ${((user + system) / 1000 / pictures.length).toFixed(0)}. Errors are in percent of the width.`;
}
