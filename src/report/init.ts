import type { InitReport } from '../session/init.ts';
import { printable } from './printable.ts';
import { count } from './text.ts';

/**
 * What `init` left out, one line each: `2 links to folders (not followed): a, b`.
 * @param most so many of each are named, and the rest is counted
 */
export function leftOutLines(report: InitReport, most = 0): string[] {
  const { links, closedFolders } = report;
  const lines: readonly (readonly [readonly string[], string, string])[] = [
    [report.rawBesidePicture, 'raw file', ' beside a photo of the same name (counted once)'],
    [report.rendered, 'photo', ' that selvedge render wrote'],
    [report.ratedLower, 'photo', ' with fewer stars'],
    [report.unrated, 'photo', ' without a rating'],
    [
      report.unnameable,
      'photo',
      ' with a name that a manifest cannot carry (a backslash, a control character, a beginning like C:, or no UTF-8)',
    ],
    [closedFolders, 'folder', ' that cannot be looked into'],
    [links.outside, 'link', ' to files outside the folder (never read)'],
    [links.inside, 'link', ' to files inside the folder (counted once)'],
    [links.folder, 'link', ' to folders (not followed)'],
    [links.nowhere, 'link', ` that lead${links.nowhere.length === 1 ? 's' : ''} nowhere`],
  ];
  return lines
    .filter(([names]) => names.length > 0)
    .map(([names, noun, which]) => `${count(names.length, noun)}${which}${namesWords(names, most)}`);
}

function namesWords(names: readonly string[], most: number): string {
  if (most === 0) return '';
  const more = names.length > most ? ` and ${names.length - most} more` : '';
  return `: ${printable(names.slice(0, most).join(', '))}${more}`;
}
