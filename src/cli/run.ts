import { Command, CommanderError } from 'commander';
import { printableLines } from '../report/printable.ts';
import { checkCommand } from './check.ts';
import { EXIT, Interrupted, type ExitCode } from './exit.ts';
import { fixCommand } from './fix.ts';
import { initCommand } from './init.ts';
import { isFailure, sayFailure } from './open-sessions.ts';
import { mergeCommand } from './merge.ts';
import { measureCommand } from './measure.ts';
import { notesCommand } from './notes.ts';
import { renderCommand } from './render.ts';
import { reviewCommand } from './review.ts';
import type { Streams } from './streams.ts';
import { VERSION } from './version.ts';

/** Adds one command to the program; the command gives its exit code to `done`. */
export type AddCommand = (program: Command, streams: Streams, done: (code: ExitCode) => void) => void;

const COMMANDS: readonly AddCommand[] = [
  initCommand,
  measureCommand,
  checkCommand,
  fixCommand,
  renderCommand,
  reviewCommand,
  mergeCommand,
  notesCommand,
];

/**
 * Runs the command line once.
 * @param argv what stands behind the program's name
 * @returns the exit code; nothing is thrown
 */
export async function run(argv: readonly string[], streams: Streams): Promise<ExitCode> {
  let code: ExitCode = EXIT.clean;
  const program = new Command('selvedge')
    .description('Crops for photographs of people, written as text, checked and fixed like code.')
    .version(VERSION, '--version', 'print the version')
    .helpOption('-h, --help', 'show help')
    .helpCommand('help [command]', 'Show help for a command.')
    .exitOverride()
    .showSuggestionAfterError(true)
    .configureOutput({
      writeOut: (text) => streams.stdout.write(text),
      writeErr: (text) => streams.stderr.write(text),
    })
    .addHelpText(
      'after',
      '\nWhat a manifest may say: selvedge init --help, and docs/manifest.md' +
        '\nExit codes: 0 clean, 1 findings, 2 a bad call or something that could not be read, 130 interrupted.',
    );
  for (const add of COMMANDS) {
    add(program, streams, (given) => {
      code = given;
    });
  }
  try {
    await program.parseAsync([...argv], { from: 'user' });
    return code;
  } catch (error) {
    return explain(error, streams);
  }
}

function explain(error: unknown, { stderr, signal }: Streams): ExitCode {
  if (error instanceof Interrupted || (signal.aborted && error === signal.reason)) {
    const what = error instanceof Interrupted ? error.message : 'Nothing was written.';
    stderr.write(`selvedge: Interrupted. ${printableLines(what)}\n`);
    return EXIT.interrupted;
  }
  if (error instanceof CommanderError) {
    // Help and version have been shown; faults of the call too.
    return error.exitCode === 0 ? EXIT.clean : EXIT.failure;
  }
  if (isFailure(error)) {
    sayFailure(error, stderr);
    return EXIT.failure;
  }
  const detail = error instanceof Error ? (error.stack ?? error.message) : String(error);
  stderr.write(
    `selvedge: This should not have happened and is a fault of the program. Nothing was half written.\n${printableLines(detail)}\n`,
  );
  return EXIT.failure;
}
