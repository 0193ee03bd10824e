import { leftOutLines } from '../report/init.ts';
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

/** Of what is left out so many names are told. */
const MOST_NAMES = 10;

export const initCommand: AddCommand = (program, streams, done) => {
  program
    .command('init')
    .description('Write a manifest with one frame per photo of a folder.')
    .argument('<folder>', 'the folder with the photos')
    .option('--finished', 'a finished portfolio: each photo as it is, to be looked at again')
    .option(
      '--min-rating <stars>',
      'only photos with at least this many stars, 1 to 5 (embedded XMP)',
      wholeNumber('--min-rating', 1, 5),
    )
    .addHelpText('after', manifestKeysHelp)
    .action(async (folder: string, options: Options) => {
      streams.stdout.write(describe(await initSession(folder, options)));
      done(EXIT.clean);
    });
};

function describe(report: InitReport): string {
  return [
    `${printable(report.path)}: ${count(report.pictures.length, 'frame')}`,
    ...leftOutLines(report, MOST_NAMES).map((line) => `left out: ${line}`),
    'say in it what you want (aspect, length, subjects, compose, allow, note, final …): selvedge init --help lists all',
    `next: selvedge measure ${printable(shellPath(report.path))}`,
    '',
  ].join('\n');
}
