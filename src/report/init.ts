import type { InitReport } from '../session/init.ts';
import { count } from './text.ts';

/** What `init` left out, one line each: `2 links to folders (not followed)`. */
export function leftOutLines(report: InitReport): string[] {
  const { links, closedFolders } = report;
  const lines: readonly (readonly [number, string, string])[] = [
    [report.rawBesidePicture, 'raw file', ' beside a photo of the same name (counted once)'],
    [report.rendered.length, 'photo', ' that selvedge render wrote'],
    [report.ratedLower, 'photo', ' with fewer stars'],
    [report.unrated, 'photo', ' without a rating'],
    [
      report.unnameable.length,
      'photo',
      ' with a name that a manifest cannot carry (a backslash, a control character, a beginning like C:, or no UTF-8)',
    ],
    [closedFolders.length, 'folder', ' that cannot be looked into'],
    [links.outside, 'link', ' to files outside the folder (never read)'],
    [links.inside, 'link', ' to files inside the folder (counted once)'],
    [links.folder, 'link', ' to folders (not followed)'],
    [links.nowhere, 'link', ` that lead${links.nowhere === 1 ? 's' : ''} nowhere`],
  ];
  return lines.filter(([number]) => number > 0).map(([number, noun, which]) => `${count(number, noun)}${which}`);
}
