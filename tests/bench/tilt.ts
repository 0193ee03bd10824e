import { decodePhoto } from '../../src/photos/decode.ts';
import { LONG_EDGE, measurePicture, measurePixels } from '../../src/vision/measure.ts';
import type { ModelSet } from '../../src/vision/models/model-set.ts';
import { houghTilt } from '../truth/support/hough.ts';
import { cocoPhotos, demoPhotos, type LabelledPhoto } from '../truth/support/labels.ts';
import { loadModels } from '../truth/support/measured.ts';
import { hasShared } from '../truth/support/shared-folder.ts';
import {
  cameraTruths,
  isForTuning,
  peopled,
  summaryOf,
  turnedCases,
  type TiltCase,
  type TiltSummary,
} from '../truth/support/tilt.ts';
import { percent } from './percent.ts';

/** Clockwise, in degrees. */
const TURNS = [-6, -4, -2.5, -1, -0.5, 0, 0.5, 1, 2.5, 4, 6];
/** Photos by which the time is measured. */
const TIMED = 8;

/** How well the lean of photos is told that were turned by known angles, beside a plain Hough transform. */
export async function run(): Promise<string> {
  if (!hasShared('labelled-photos', 'bench of lean') || !hasShared('demo-photos', 'bench of lean')) {
    return '## Lean and horizon\n\nNot run: the labelled photos are not there.\n';
  }
  const models = await loadModels();
  const rendered = await casesOf(models, demoPhotos());
  const photographs = await casesOf(models, cocoPhotos());
  const halves = (cases: readonly TiltCase[], isTuning: boolean): TiltCase[] =>
    cases.filter(({ photo }) => isForTuning(photo) === isTuning);
  const rows = [
    row('rendered, tuning half', summaryOf(halves(rendered, true))),
    row('rendered, reporting half', summaryOf(halves(rendered, false))),
    row('COCO photographs, all four', summaryOf(photographs)),
    row(
      'rendered, Hough transform',
      summaryOf(rendered, ({ other }) => other),
    ),
    row(
      'COCO photographs, Hough transform',
      summaryOf(photographs, ({ other }) => other),
    ),
  ];
  const time = await timeOf(models, demoPhotos().slice(0, TIMED));
  await models.release();
  return [
    '## Lean and horizon',
    '',
    `Every photo turned by ${TURNS.join(', ')}°. Rendered photos: against the camera's exact roll. Photographs: the answer for the turned one against the answer for the unturned one, less the angle. An answer has a confidence of at least 0.5. Thresholds were chosen on the tuning half, by a hash of the names; both halves had been looked at while the lines themselves were made. The Hough transform (Duda and Hart, 1972) is of the whole picture's strongest edges and always answers.`,
    '',
    '| photos | pictures | answered | median error | off by more than 0.5° | by more than 1° | worst |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    ...rows,
    '',
    time,
  ].join('\n');
}

async function casesOf(models: ModelSet, photos: readonly LabelledPhoto[]): Promise<TiltCase[]> {
  const truths = cameraTruths();
  const cases: TiltCase[] = [];
  for (const photo of photos) {
    const label = truths.get(photo.name)?.degrees;
    const picture = await peopled(models, photo);
    cases.push(...turnedCases(photo.name, picture, TURNS, { label, other: (turned) => houghTilt(turned) }));
  }
  return cases;
}

function row(name: string, { cases, answered, median, offByHalf, offByOne, worst }: TiltSummary): string {
  const degrees = (value: number): string => `${value.toFixed(2)}°`;
  return `| ${name} | ${cases} | ${percent(answered)} | ${degrees(median)} | ${percent(offByHalf)} | ${percent(offByOne)} | ${degrees(worst)} |`;
}

/** What the lines add to measuring, photo by photo in turns, so that both see the same machine. */
async function timeOf(models: ModelSet, photos: readonly LabelledPhoto[]): Promise<string> {
  await models.loadAll();
  let without = 0;
  let added = 0;
  for (const { path } of photos) {
    const before = process.cpuUsage();
    const { pixels } = await decodePhoto(path, LONG_EDGE);
    await measurePixels(pixels, models);
    const people = process.cpuUsage(before);
    const start = process.cpuUsage();
    await decodePhoto(path, LONG_EDGE);
    await measurePicture(pixels, models);
    const all = process.cpuUsage(start);
    without += (people.user + people.system) / 1000;
    added += (all.user + all.system - people.user - people.system) / 1000;
  }
  const each = (milliseconds: number): string => (milliseconds / photos.length).toFixed(0);
  return `CPU milliseconds a photo, decoding included: ${each(without)} for the people, ${each(added)} more for lean and horizon (${percent(added / without)}).`;
}
