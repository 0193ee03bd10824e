import { FIRM, POSSIBLE } from '../../src/people/confidence.ts';
import type { PointName } from '../../src/people/points.ts';
import { foundPeople, pointErrors, shareWithin } from '../truth/support/errors.ts';
import { median } from '../truth/support/median.ts';
import { finishedTables } from './vision-finished.ts';
import { falseAlarms, jointsReported, totalOf } from '../truth/support/joint-edges.ts';
import { cocoPhotos, demoPhotos, sizeOfPerson, type LabelledPhoto } from '../truth/support/labels.ts';
import { loadModels, measureLabelled, type MeasuredPhoto } from '../truth/support/measured.ts';
import { outlineOverlap } from '../truth/support/outlines.ts';
import { hasShared } from '../truth/support/shared-folder.ts';
import { percent } from './percent.ts';

const KINDS = [
  'shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle', 'big_toe', 'heel', 'hand_root', 'forefinger1', 'middle_finger4',
]; // prettier-ignore

/** Measures all labelled photos and gives the section for docs/benchmarks.md. */
export async function run(): Promise<string> {
  if (!hasShared('labelled-photos', 'bench of vision') || !hasShared('demo-photos', 'bench of vision')) {
    return '## People from pixels\n\nNot run: the labelled photos are not there.\n';
  }
  const models = await loadModels();
  const sets: [string, LabelledPhoto[]][] = [
    ['COCO photographs (4 photos, 12 people, human labels)', cocoPhotos()],
    ['rendered photos (24 photos, 33 figures, exact labels)', demoPhotos()],
  ];
  const sections = ['## People from pixels', '', 'Distances in percent of the longer side of the labelled box.', ''];
  for (const [title, photos] of sets) {
    const measured = await measureLabelled(models, photos);
    sections.push(`### ${title}`, '', accuracy(measured), '', confidenceTable(measured), '');
    sections.push(await finishedTables(models, photos), '');
  }
  await models.release();
  return `${sections.join('\n')}\n`;
}

function accuracy(photos: readonly MeasuredPhoto[]): string {
  const similarities = photos.flatMap(({ matches }) => matches.map(({ oks }) => oks));
  const found = foundPeople(photos);
  const heads = found.flatMap(({ photo, labelled, found: person }) =>
    labelled.headTop && person.headTop
      ? [(100 * Math.abs(person.headTop.y * photo.size.height - labelled.headTop.y)) / sizeOfPerson(labelled)]
      : [],
  );
  const lines = [
    `* found (similarity at least 0.5): ${found.length} of ${similarities.length}; measured in all: ${photos.flatMap(({ measured }) => measured.people).length}`,
    `* mean object keypoint similarity, missed people as 0: ${meanOf(similarities).toFixed(3)}`,
    `* a crop edge on a labelled joint is reported (band 4 %): ${percent(totalOf(jointsReported(photos)))}; one at the middle of a bone: ${percent(totalOf(falseAlarms(photos)))}`,
  ];
  if (heads.length > 0)
    lines.push(`* head top: median ${median(heads).toFixed(2)}, within 3 %: ${percent(shareWithin(heads, 3))}`);
  const masked = found.filter(({ labelled }) => labelled.maskRuns !== undefined);
  if (masked.length > 0)
    lines.push(`* outline, shared over joint area: median ${median(masked.map(outlineOverlap)).toFixed(3)}`);
  return lines.join('\n');
}

function confidenceTable(photos: readonly MeasuredPhoto[]): string {
  const rows = KINDS.map((kind) => {
    const errors = pointErrors(photos, (name) => isKind(name, kind));
    const all = errors.map((error) => error.percent);
    const labelled = foundPeople(photos).flatMap(({ labelled: person }) =>
      [...person.points.keys()].filter((name) => isKind(name, kind)),
    );
    const at = (least: number, below: number): string => {
      const some = errors
        .filter(({ confidence }) => confidence >= least && confidence < below)
        .map((error) => error.percent);
      return some.length === 0 ? '–' : `${some.length} / ${percent(shareWithin(some, 5))}`;
    };
    return `| ${kind} (${labelled.length}) | ${median(all).toFixed(2)} | ${percent(shareWithin(all, 5))} | ${percent(shareWithin(all, 8))} | ${at(FIRM, 2)} | ${at(POSSIBLE, FIRM)} |`;
  });
  return [
    '| point (labelled) | median | within 5 % | within 8 % | firm: number / of these within 5 % | possible: number / within 5 % |',
    '| --- | --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

function isKind(name: PointName, kind: string): boolean {
  return name.slice(name.indexOf('_') + 1) === kind;
}

function meanOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0) / numbers.length;
}
