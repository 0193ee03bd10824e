import type { Colours } from '../report/text.ts';
import { coloursFor } from '../report/text.ts';

/** Where a command writes. */
export interface Output {
  readonly isTTY?: boolean | undefined;
  write(text: string): unknown;
}

/** A command's surroundings: the process's own, or a test's. */
export interface Streams {
  /** Results. */
  readonly stdout: Output;
  /** Progress (on a terminal only) and what went wrong. */
  readonly stderr: Output;
  /** Aborts on an interrupt. */
  readonly signal: AbortSignal;
}

/** Colours for results: on a terminal, unless NO_COLOR is set (no-color.org). */
export function resultColours({ stdout }: Streams): Colours {
  return coloursFor(stdout.isTTY === true && (process.env['NO_COLOR'] ?? '') === '');
}
