import { formatRendered } from '../report/rendered.ts';
import type { Shard } from '../session/check-part.ts';
import { findManifest } from '../session/find-manifest.ts';
import { renderSession, type RenderReport } from '../session/outputs/render-session.ts';
import { PHOTOS_OPTION, SHARD_OPTION } from './arguments.ts';
import { EXIT, type ExitCode } from './exit.ts';
import { openReadable } from './open-sessions.ts';
import { showProgress } from './progress.ts';
import type { AddCommand } from './run.ts';

interface Options {
  readonly to: string;
  readonly photos?: string;
  readonly output?: string;
  readonly frame?: string;
  readonly shard?: Shard;
}

export const renderCommand: AddCommand = (program, streams, done) => {
  program
    .command('render')
    .description('Make the pictures that the manifest delivers, in a folder of their own. Photos are only read.')
    .argument('<manifest>', 'the session’s manifest, such as crops.yaml, or a folder that has a crops.yaml')
    .requiredOption('--to <dir>', 'the folder for the files; never one with photos')
    .option(...PHOTOS_OPTION)
    .option('--output <id>', 'only this output of the manifest’s deliver')
    .option('--frame <name>', 'only this frame: 0142.jpg, or 0142.jpg#2 for the second of that photo')
    .option(...SHARD_OPTION)
    .action(async (path: string, { photos, ...options }: Options) => {
      const session = await openReadable(await findManifest(path), { photosFolder: photos });
      const bar = showProgress(streams, 'rendering', 'files');
      const report = await renderSession(session, {
        ...options,
        signal: streams.signal,
        onProgress: bar.update,
      }).finally(bar.stop);
      streams.stdout.write(formatRendered(report));
      done(exitCodeOf(report));
    });
};

function exitCodeOf({ failed, remarks, unreadEntries, stopped, wasInterrupted }: RenderReport): ExitCode {
  if (wasInterrupted) return EXIT.interrupted;
  if (stopped !== undefined) return EXIT.failure;
  const hasErrors = remarks.some(({ finding }) => finding.severity === 'error');
  return hasErrors || failed.length + unreadEntries > 0 ? EXIT.findings : EXIT.clean;
}
