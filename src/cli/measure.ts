import { formatPeopleLine } from '../people/people-file.ts';
import { printable, printableJson } from '../report/printable.ts';
import { count } from '../report/text.ts';
import { findManifest } from '../session/find-manifest.ts';
import { photosOfShard, type Shard } from '../session/check-part.ts';
import { measureSession, type MeasureFailure, type MeasureReport } from '../session/measure.ts';
import { readPeopleFile, type Session } from '../session/session.ts';
import { oneOf, PHOTOS_OPTION, SHARD_OPTION, wholeNumber } from './arguments.ts';
import { EXIT, type ExitCode } from './exit.ts';
import { openReadable } from './open-sessions.ts';
import { showProgress } from './progress.ts';
import type { AddCommand } from './run.ts';
import { VERSION } from './version.ts';

interface Options {
  readonly photos?: string;
  readonly workers?: number;
  readonly shard?: Shard;
  readonly format: 'text' | 'json';
}

export const measureCommand: AddCommand = (program, streams, done) => {
  program
    .command('measure')
    .description('Find and measure the people in the photos; writes the people file beside the manifest.')
    .argument('<manifest>', 'the session’s manifest, such as crops.yaml, or a folder that has a crops.yaml')
    .option(...PHOTOS_OPTION)
    .option('--workers <count>', 'processes that measure at once (default: one a core)', wholeNumber('--workers', 1))
    .option(...SHARD_OPTION)
    .option(
      '--format <format>',
      'text, or json for the people file’s lines',
      oneOf('--format', ['text', 'json']),
      'text',
    )
    .action(async (path: string, options: Options) => {
      const session = await openReadable(await findManifest(path), { photosFolder: options.photos });
      const bar = showProgress(streams, 'measuring', 'photos');
      const report = await measureSession(session, {
        version: VERSION,
        workers: options.workers,
        shard: options.shard,
        signal: streams.signal,
        onProgress: bar.update,
      }).finally(bar.stop);
      streams.stdout.write(options.format === 'json' ? await lines(session, options.shard) : describe(report));
      if (options.format === 'json') {
        for (const { photo, message } of report.failed) streams.stderr.write(`${told({ photo, message })}\n`);
      }
      done(exitCodeOf(report));
    });
};

/** The people file's lines of this session's photos, or of a shard's. */
async function lines(session: Session, shard: Shard | undefined): Promise<string> {
  const { photos } = await readPeopleFile(session.peoplePath);
  const names = photosOfShard(session, shard ?? { number: 1, of: 1 });
  const wanted = [...photos.values()].filter(({ photo }) => names.has(photo));
  return wanted.map((photo) => `${printableJson(formatPeopleLine(photo))}\n`).join('');
}

function describe(report: MeasureReport): string {
  const { measured, unchanged, failed, wasInterrupted, peoplePath } = report;
  return [
    ...failed.map(told),
    `${count(measured.length, 'photo')} measured, ${unchanged.length} unchanged, ${failed.length} could not be read`,
    ...(measured.length > 0 ? [`written: ${printable(peoplePath)}`] : []),
    ...(wasInterrupted ? ['Interrupted: what was measured is kept. The same command goes on from here.'] : []),
    '',
  ].join('\n');
}

function told({ photo, message }: MeasureFailure): string {
  return printable(message.startsWith(photo) ? message : `${photo}: ${message}`);
}

function exitCodeOf({ failed, wasInterrupted }: MeasureReport): ExitCode {
  if (wasInterrupted) return EXIT.interrupted;
  return failed.length > 0 ? EXIT.findings : EXIT.clean;
}
