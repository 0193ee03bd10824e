import { formatFixes } from '../report/fixes.ts';
import { fixSession, type FixOptions } from '../session/fix.ts';
import type { FixReport } from '../session/fix-report.ts';
import type { Session } from '../session/session.ts';
import { MANIFEST_HELP, PHOTOS_OPTION, RULE_HELP, ruleIds } from './arguments.ts';
import { EXIT, Interrupted } from './exit.ts';
import { isFailure, openSessions, sayFailure } from './open-sessions.ts';
import type { AddCommand } from './run.ts';
import { resultColours, type Streams } from './streams.ts';

interface Options {
  readonly photos?: string;
  readonly rule?: readonly string[];
  readonly frame?: string;
  readonly anyLength?: boolean;
  readonly dryRun?: boolean;
  readonly inFull?: boolean;
}

const SUMMARY = 'Give every frame with errors or warnings the nearest crop that breaks nothing; edits the manifest.';

export const fixCommand: AddCommand = (program, streams, done) => {
  program
    .command('fix')
    .summary(SUMMARY)
    .description(
      `${SUMMARY} No crop comes out under 600 pixels at its short side, unless it is so already or the photo is small.`,
    )
    .argument('<manifest...>', MANIFEST_HELP)
    .option(...PHOTOS_OPTION)
    .option('--rule <id>', `repair only what this rule says${RULE_HELP}`, ruleIds)
    .option('--frame <name>', 'only this frame: 0142.jpg, or 0142.jpg#2 for the second of that photo')
    .option('--any-length', 'come down more than one length where it takes that, as frames with a cut face do anyway')
    .option('--dry-run', 'say what would change, and change nothing')
    .option('--in-full', 'tell each finding in its whole sentence and each crop’s numbers, not one line a frame')
    .action(async (paths: string[], options: Options) => {
      const opened = await openSessions(paths, { photosFolder: options.photos }, streams.stderr);
      const reports: FixReport[] = [];
      const isDryRun = options.dryRun === true;
      const format = { isDryRun, inFull: options.inFull === true, colours: resultColours(streams) };
      const fixOptions = { ...options, rules: options.rule, signal: streams.signal };
      let hasFailed = opened.isIncomplete;
      const named = withFrame(opened.sessions, options.frame);
      for (const session of named) {
        const report = await fixOne(session, fixOptions, reports, streams, named.length === 1);
        hasFailed ||= report === undefined;
        if (!report) continue;
        reports.push(report);
        streams.stdout.write(formatFixes(report, format));
      }
      const remains = reports.some((report) => remainsOf(report) > 0);
      done(hasFailed ? EXIT.failure : remains ? EXIT.findings : EXIT.clean);
    });
};

/** Of several manifests those that have the frame; all when none has, so that each says so. */
function withFrame(sessions: readonly Session[], name: string | undefined): readonly Session[] {
  const having = sessions.filter(({ manifest }) => manifest.frames.some((frame) => frame.name === name));
  return having.length > 0 ? having : sessions;
}

/** Undefined when it failed and that was said; of one manifest alone the failure is the command's. */
async function fixOne(
  session: Session,
  options: FixOptions,
  before: readonly FixReport[],
  { stderr, signal }: Streams,
  isAlone: boolean,
): Promise<FixReport | undefined> {
  try {
    return await fixSession(session, options);
  } catch (error) {
    if (signal.aborted && error === signal.reason) throw new Interrupted(whatWasWritten(session, before));
    if (isAlone || !isFailure(error)) throw error;
    sayFailure(error, stderr);
    return undefined;
  }
}

function whatWasWritten({ path }: Session, before: readonly FixReport[]): string {
  const written = before.filter(({ wasWritten }) => wasWritten).map((report) => report.path);
  if (written.length === 0) return 'Nothing was written.';
  return `${written.join(', ')} ${written.length === 1 ? 'is' : 'are'} fixed; nothing was written to ${path}.`;
}

function remainsOf({ stopped, untouched, needsYou }: FixReport): number {
  return (stopped ? 1 : 0) + untouched.length + needsYou.length;
}
