import { printable } from '../report/printable.ts';
import { count } from '../report/text.ts';
import { initSession, type InitReport } from '../session/init.ts';
import { shellPath } from '../session/shell.ts';
import { wholeNumber } from './arguments.ts';
import { EXIT } from './exit.ts';
import { manifestKeysHelp } from './manifest-keys.ts';
import type { AddCommand } from './run.ts';

interface Options {
  readonly finished?: boolean;
  readonly minRating?: number;
}

export const initCommand: AddCommand = (program, streams, done) => {
  program
    .command('init')
    .description('Write a manifest with one frame per picture of a folder.')
    .argument('<folder>', 'the folder with the pictures')
    .option('--finished', 'a finished portfolio: each picture as it is, to be looked at again')
    .option(
      '--min-rating <stars>',
      'only pictures with at least this many stars, 1 to 5 (embedded XMP)',
      wholeNumber('--min-rating', 1, 5),
    )
    .addHelpText('after', manifestKeysHelp)
    .action(async (folder: string, options: Options) => {
      streams.stdout.write(describe(await initSession(folder, options)));
      done(EXIT.clean);
    });
};

function describe(report: InitReport): string {
  const leftOut = [
    report.rawBesidePicture > 0 &&
      `${count(report.rawBesidePicture, 'raw file')} beside a picture of the same name (counted once)`,
    report.ratedLower > 0 && `${count(report.ratedLower, 'picture')} with fewer stars`,
    report.unrated > 0 && `${count(report.unrated, 'picture')} without a rating`,
    report.unnameable.length > 0 &&
      `${count(report.unnameable.length, 'picture')} with a backslash or a control character in the name`,
    report.links.outside > 0 && `${count(report.links.outside, 'link')} to files outside the folder (never read)`,
    report.links.inside > 0 && `${count(report.links.inside, 'link')} to files inside the folder (counted once)`,
    report.links.folder > 0 && `${count(report.links.folder, 'link')} to folders (not followed)`,
    report.links.nowhere > 0 &&
      `${count(report.links.nowhere, 'link')} that lead${report.links.nowhere === 1 ? 's' : ''} nowhere`,
  ].filter((line) => line !== false);
  return [
    `${printable(report.path)}: ${count(report.pictures.length, 'frame')}`,
    ...leftOut.map((line) => `left out: ${line}`),
    'say in it what you want (aspect, length, subjects, compose, allow, note, final …): selvedge init --help lists all',
    `next: selvedge measure ${printable(shellPath(report.path))}`,
    '',
  ].join('\n');
}
