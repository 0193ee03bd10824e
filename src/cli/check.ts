import { formatJson } from '../report/json.ts';
import { formatText } from '../report/text.ts';
import type { SessionCheck } from '../session/check.ts';
import { checkSession } from '../session/check.ts';
import { countFindings } from '../session/counts.ts';
import { MANIFEST_HELP, oneOf, PHOTOS_OPTION, RULE_HELP, ruleIds, wholeNumber } from './arguments.ts';
import { EXIT } from './exit.ts';
import { openSessions } from './open-sessions.ts';
import type { AddCommand } from './run.ts';
import { resultColours } from './streams.ts';

interface Options {
  readonly photos?: string;
  readonly format: 'text' | 'json';
  readonly maxWarnings: number;
  readonly rule?: readonly string[];
  readonly hints?: boolean;
}

export const checkCommand: AddCommand = (program, streams, done) => {
  program
    .command('check')
    .description('Say where crops cut a body badly, leave too little room, or miss what was asked for.')
    .argument('<manifest...>', MANIFEST_HELP)
    .option(...PHOTOS_OPTION)
    .option('--format <format>', 'text or json', oneOf('--format', ['text', 'json']), 'text')
    .option(
      '--max-warnings <count>',
      'as many warnings still pass; errors never do',
      wholeNumber('--max-warnings', 0),
      0,
    )
    .option('--rule <id>', `only what this rule says${RULE_HELP}`, ruleIds)
    .option('--hints', 'show each hint (severity info) too, not only how many there are; JSON always has them')
    .action(async (paths: string[], options: Options) => {
      const { sessions, isIncomplete } = await openSessions(paths, { photosFolder: options.photos }, streams.stderr);
      const checks: SessionCheck[] = [];
      for (const session of sessions) {
        const fixes = options.format === 'json';
        checks.push(await checkSession(session, { rules: options.rule, fixes, signal: streams.signal }));
      }
      if (checks.length > 0) {
        const format = { colours: resultColours(streams), hints: options.hints === true };
        streams.stdout.write(options.format === 'json' ? `${formatJson(checks)}\n` : formatText(checks, format));
      }
      const { errors, warnings } = countFindings(checks);
      const found = errors > 0 || warnings > options.maxWarnings ? EXIT.findings : EXIT.clean;
      done(isIncomplete ? EXIT.failure : found);
    });
};
