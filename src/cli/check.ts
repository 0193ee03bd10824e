import { relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { contactSheet } from '../report/html/sheet.ts';
import { formatJson } from '../report/json.ts';
import { formatMarkdown } from '../report/markdown/check.ts';
import { formatSarif } from '../report/sarif/sarif.ts';
import { formatText } from '../report/text.ts';
import type { SessionCheck } from '../session/check.ts';
import { checkSession } from '../session/check.ts';
import { bothParts, shardPart, type CheckPart, type Shard } from '../session/check-part.ts';
import { countFindings } from '../session/counts.ts';
import { partSince } from '../session/review/part-since.ts';
import { framesWithPictures } from '../session/sheet-pictures.ts';
import type { Session } from '../session/session.ts';
import { MANIFEST_HELP, oneOf, PHOTOS_OPTION, RULE_HELP, ruleIds, SHARD_OPTION } from './arguments.ts';
import { EXIT } from './exit.ts';
import { exceedsWarnings, MAX_WARNINGS_OPTION } from './max-warnings.ts';
import { openSessions } from './open-sessions.ts';
import type { AddCommand } from './run.ts';
import { resultColours, type Streams } from './streams.ts';
import { VERSION } from './version.ts';

const FORMATS = ['text', 'json', 'sarif', 'markdown', 'html'] as const;
type Format = (typeof FORMATS)[number];

interface Options {
  readonly photos?: string;
  readonly format: Format;
  readonly maxWarnings: number;
  readonly rule?: readonly string[];
  readonly hints?: boolean;
  readonly since?: string;
  readonly shard?: Shard;
}

/** Formats that have room for fixes; searching for them takes most of the time. */
const WITH_FIXES: ReadonlySet<Format> = new Set(['json', 'sarif']);

export const checkCommand: AddCommand = (program, streams, done) => {
  program
    .command('check')
    .description('Say where crops cut a body badly, leave too little room, or miss what was asked for.')
    .argument('<manifest...>', MANIFEST_HELP)
    .option(...PHOTOS_OPTION)
    .option(
      '--format <format>',
      'text, json, sarif (2.1.0), markdown for a comment, or html for a contact sheet',
      oneOf('--format', FORMATS),
      'text',
    ) // prettier-ignore
    .option(...MAX_WARNINGS_OPTION)
    .option('--rule <id>', `only what this rule says${RULE_HELP}`, ruleIds)
    .option('--since <revision>', 'only what was changed since a git revision, such as main or HEAD~1')
    .option(...SHARD_OPTION)
    .option('--hints', 'show each hint (severity info) too, not only how many there are; JSON always has them')
    .action(async (paths: string[], options: Options) => {
      const { sessions, isIncomplete } = await openSessions(paths, { photosFolder: options.photos }, streams.stderr);
      const checks: SessionCheck[] = [];
      for (const session of sessions) {
        const fixes = WITH_FIXES.has(options.format);
        const part = await partOf(session, options, streams.signal);
        checks.push(await checkSession(session, { rules: options.rule, fixes, part, signal: streams.signal }));
      }
      if (checks.length > 0) await print(checks, options, streams);
      const found = exceedsWarnings(countFindings(checks), options.maxWarnings) ? EXIT.findings : EXIT.clean;
      done(isIncomplete ? EXIT.failure : found);
    });
};

async function partOf(
  session: Session,
  { since, shard }: Options,
  signal: AbortSignal,
): Promise<CheckPart | undefined> {
  const ofShard = shard && shardPart(session, shard);
  if (since === undefined) return ofShard;
  const touched = await partSince(session, since, signal);
  return ofShard ? bothParts(ofShard, touched) : touched;
}

async function print(checks: readonly SessionCheck[], options: Options, streams: Streams): Promise<void> {
  if (options.format !== 'html') {
    streams.stdout.write(formatted(checks, { ...options, format: options.format }, streams));
    return;
  }
  for await (const piece of contactSheet(checks, (check) => framesWithPictures(check, streams.signal))) {
    streams.stdout.write(piece);
  }
}

function formatted(
  checks: readonly SessionCheck[],
  options: Options & { readonly format: Exclude<Format, 'html'> },
  streams: Streams,
): string {
  const { shard } = options;
  switch (options.format) {
    case 'json':
      return `${formatJson(checks, shard)}\n`;
    case 'sarif': {
      const part = shard && `shard-${shard.number}-of-${shard.of}`;
      return `${formatSarif(checks, { version: VERSION, uriOf, ...(part !== undefined && { part }) })}\n`;
    }
    case 'markdown':
      return formatMarkdown(checks);
    case 'text':
      return formatText(checks, { colours: resultColours(streams), hints: options.hints === true });
  }
}

/** Relative to the folder that the command runs in, which is the repository's root in continuous integration. */
function uriOf(path: string): string {
  const way = relative('.', resolve(path));
  const isBelow = way !== '' && way !== '..' && !way.startsWith(`..${sep}`) && !/^([a-z]:|[\\/])/i.test(way);
  if (!isBelow) return pathToFileURL(path).href;
  return way.split(sep).map(encodeURIComponent).join('/');
}
