import type { LogOutputChannel } from 'vscode';
import { window } from 'vscode';

/** The output channel; never raised by itself. */
export type Log = LogOutputChannel;

export function createLog(): Log {
  return window.createOutputChannel('Selvedge', { log: true });
}

/** What went wrong, for the log and for people. */
export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
