import { formatFixes } from '../report/fixes.ts';
import { fixSession } from '../session/fix.ts';
import { openSession, type Session } from '../session/session.ts';
import { PHOTOS_OPTION, ruleId } from './arguments.ts';
import { EXIT } from './exit.ts';
import { requireFrames } from './require-frames.ts';
import type { AddCommand } from './run.ts';
import { resultColours } from './streams.ts';

interface Options {
  readonly photos?: string;
  readonly rule?: string;
  readonly frame?: string;
  readonly anyLength?: boolean;
  readonly dryRun?: boolean;
}

export const fixCommand: AddCommand = (program, streams, done) => {
  program
    .command('fix')
    .description('Give every frame with errors or warnings the nearest crop that breaks nothing; edits the manifest.')
    .argument('<manifest...>', 'manifests, such as crops.yaml')
    .option(...PHOTOS_OPTION)
    .option('--rule <id>', 'repair only what this rule says', ruleId)
    .option('--frame <name>', 'only this frame: 0142.jpg, or 0142.jpg#2 for the second of that photo')
    .option('--any-length', 'come down more than one length where it takes that')
    .option('--dry-run', 'say what would change, and change nothing')
    .action(async (paths: string[], options: Options) => {
      const sessions: Session[] = [];
      for (const path of paths) {
        const session = await openSession(path, { photosFolder: options.photos });
        requireFrames(session);
        sessions.push(session);
      }
      let remains = false;
      for (const session of sessions) {
        const report = await fixSession(session, { ...options, signal: streams.signal });
        streams.stdout.write(formatFixes(report, options.dryRun === true, resultColours(streams)));
        remains ||= report.needsYou.length > 0;
      }
      done(remains ? EXIT.findings : EXIT.clean);
    });
};
