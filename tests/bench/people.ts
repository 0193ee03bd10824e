import { FIRM, POSSIBLE } from '../../src/people/confidence.ts';
import type { PointName } from '../../src/people/points.ts';
import { foundPeople, median, pointErrors, shareWithin } from '../truth/support/errors.ts';
import { falseAlarms, jointsReported, totalOf } from '../truth/support/joint-edges.ts';
import { cocoPhotos, demoPhotos } from '../truth/support/labels.ts';
import { loadModels, measureLabelled, type MeasuredPhoto } from '../truth/support/measured.ts';
import { outlineOverlap } from '../truth/support/outlines.ts';
import { hasShared } from '../truth/support/shared-folder.ts';

const KINDS = ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle', 'big_toe', 'heel'] as const;

/** How well people are measured from pixels, and what a confidence is worth, against labels. */
export async function run(): Promise<string> {
  const models = await loadModels();
  const sections = ['## People from pixels', ''];
  if (hasShared('labelled-photos', 'people from pixels, human labels')) {
    const photos = await measureLabelled(models, cocoPhotos());
    sections.push(...sectionOf('COCO 2017 photographs, human labels (Lin et al., 2014)', photos));
  }
  if (hasShared('demo-photos', 'people from pixels, exact labels')) {
    const photos = await measureLabelled(models, demoPhotos());
    sections.push(...sectionOf('Our rendered pictures, exact labels', photos));
    const overlaps = foundPeople(photos).map(outlineOverlap);
    sections.push(
      `Outline against the exact mask, intersection over union: median ${median(overlaps).toFixed(2)}.`,
      '',
    );
  }
  return sections.join('\n');
}

function sectionOf(title: string, photos: readonly MeasuredPhoto[]): string[] {
  const people = photos.flatMap(({ matches }) => matches);
  const similarity = people.reduce((sum, { oks }) => sum + oks, 0) / people.length;
  return [
    `### ${title}`,
    '',
    `Found ${String(foundPeople(photos).length)} of ${String(people.length)} people; mean similarity (OKS, missed people as 0) ` +
      `${similarity.toFixed(3)}. A crop edge on a labelled joint is reported: ${share(totalOf(jointsReported(photos)))}; one ` +
      `at the middle of a bone: ${share(totalOf(falseAlarms(photos)))} (band 4 % of the person's size).`,
    '',
    'Errors in percent of the longer side of the labelled box. Firm and possible say what share of labelled points has that ' +
      `confidence (${String(FIRM)} and more; ${String(POSSIBLE)} to ${String(FIRM)}), and how many of them lie within 5 %.`,
    '',
    '| point | labelled | median | within 5 % | within 8 % | firm: share, within 5 % | possible: share, within 5 % |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    ...KINDS.map((kind) => rowOf(kind, photos)),
    '',
  ];
}

function rowOf(kind: string, photos: readonly MeasuredPhoto[]): string {
  const errors = pointErrors(photos, (name: PointName) => name.endsWith(`_${kind}`));
  if (errors.length === 0) return `| ${kind.replace('_', ' ')} | 0 | – | – | – | – | – |`;
  const percents = errors.map(({ percent }) => percent);
  const tier = (least: number, most: number): string => {
    const chosen = errors.filter(({ confidence }) => confidence >= least && confidence < most);
    if (chosen.length === 0) return 'none';
    const within = shareWithin(
      chosen.map(({ percent }) => percent),
      5,
    );
    return `${share(chosen.length / errors.length)}, ${share(within)}`;
  };
  return (
    `| ${kind.replace('_', ' ')} | ${String(errors.length)} | ${median(percents).toFixed(1)} % | ` +
    `${share(shareWithin(percents, 5))} | ${share(shareWithin(percents, 8))} | ${tier(FIRM, Infinity)} | ${tier(POSSIBLE, FIRM)} |`
  );
}

function share(part: number): string {
  return `${(100 * part).toFixed(0)} %`;
}
