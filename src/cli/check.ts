import { formatJson } from '../report/json.ts';
import { formatText } from '../report/text.ts';
import type { SessionCheck } from '../session/check.ts';
import { checkSession } from '../session/check.ts';
import { countFindings } from '../session/counts.ts';
import { openSession } from '../session/session.ts';
import { oneOf, PHOTOS_OPTION, ruleId, wholeNumber } from './arguments.ts';
import { EXIT } from './exit.ts';
import { requireFrames } from './require-frames.ts';
import type { AddCommand } from './run.ts';
import { resultColours } from './streams.ts';

interface Options {
  readonly photos?: string;
  readonly format: 'text' | 'json';
  readonly maxWarnings: number;
  readonly rule?: string;
}

export const checkCommand: AddCommand = (program, streams, done) => {
  program
    .command('check')
    .description('Say where crops cut a body badly, leave too little room, or miss what was asked for.')
    .argument('<manifest...>', 'manifests, such as crops.yaml')
    .option(...PHOTOS_OPTION)
    .option('--format <format>', 'text or json', oneOf('--format', ['text', 'json']), 'text')
    .option(
      '--max-warnings <count>',
      'as many warnings still pass; errors never do',
      wholeNumber('--max-warnings', 0),
      0,
    )
    .option('--rule <id>', 'only this rule', ruleId)
    .action(async (paths: string[], options: Options) => {
      const checks: SessionCheck[] = [];
      for (const path of paths) {
        const session = await openSession(path, { photosFolder: options.photos });
        requireFrames(session);
        checks.push(
          await checkSession(session, { rule: options.rule, fixes: options.format === 'json', signal: streams.signal }),
        );
      }
      const text = options.format === 'json' ? `${formatJson(checks)}\n` : formatText(checks, resultColours(streams));
      streams.stdout.write(text);
      const { errors, warnings } = countFindings(checks);
      done(errors > 0 || warnings > options.maxWarnings ? EXIT.findings : EXIT.clean);
    });
};
