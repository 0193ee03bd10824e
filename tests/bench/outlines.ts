import { cocoPhotos, demoPhotos } from '../truth/support/labels.ts';
import { median } from '../truth/support/median.ts';
import { loadModels, measureLabelled } from '../truth/support/measured.ts';
import { narrowFound, narrowSeen, wideCalled, widthErrors, type Shares } from '../truth/support/narrow.ts';
import { outlineOverlap } from '../truth/support/outlines.ts';
import { pairsOf, type Pair } from '../truth/support/pairs.ts';
import { hasShared } from '../truth/support/shared-folder.ts';

/** How well measured outlines, their widths and their narrow places agree with exact masks and drawn polygons. */
export async function run(): Promise<string> {
  if (!hasShared('labelled-photos', 'bench of outlines') || !hasShared('demo-photos', 'bench of outlines')) {
    return '## Outlines and narrow places\n\nNot run: the labelled photos are not there.\n';
  }
  const models = await loadModels();
  const rendered = pairsOf(await measureLabelled(models, demoPhotos()));
  const photographs = pairsOf(await measureLabelled(models, cocoPhotos()));
  await models.release();
  return [
    '## Outlines and narrow places',
    '',
    'Measured outlines (64 corners at most, and four gaps) against the exact masks of the rendered pictures and against the polygons that people drew around those of the COCO photographs. Overlap is shared area over joint area. The width is taken at every 64th of the height from under the arms to the ankles, with the measured joints on both sides; its error is in percent of the person’s height. A narrow place (12 % narrower than its surroundings) is right when the labels narrow within 3 % of the height; clear ones (20 % narrower in the labels) are seen when the outline narrows there. A wide place is right when the labels are narrower where the rule says so.',
    '',
    '| people | with an outline | overlap: median, least | width: median error, 90 % | narrow places right | clear ones seen | wide places right |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    row('rendered, exact masks', rendered),
    row('COCO photographs, drawn polygons', photographs),
  ].join('\n');
}

function row(name: string, all: readonly Pair[]): string {
  const pairs = all.filter(({ found }) => found.outline !== undefined);
  const overlaps = pairs.map(outlineOverlap);
  const errors = widthErrors(pairs).sort((a, b) => a - b);
  const most = errors[Math.floor(0.9 * errors.length)]!;
  const shares = [narrowFound(pairs), narrowSeen(pairs), wideCalled(pairs)].map(shareWords);
  const overlap = `${median(overlaps).toFixed(3)}, ${Math.min(...overlaps).toFixed(3)}`;
  const width = `${median(errors).toFixed(2)} %, ${most.toFixed(2)} %`;
  return `| ${name} | ${pairs.length} of ${all.length} | ${overlap} | ${width} | ${shares.join(' | ')} |`;
}

function shareWords({ said, right }: Shares): string {
  return `${right} of ${said}`;
}
