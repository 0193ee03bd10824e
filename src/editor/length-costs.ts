import type { CodeActionKind, Command, WorkspaceEdit } from 'vscode';
import { commands, window } from 'vscode';
import type { FixedFrame } from '../session/fix-report.ts';
import { isCloser, lengthWords } from '../session/length-change.ts';
import { LazyAction } from './lazy-action.ts';
import type { Log } from './log.ts';
import { plainLine } from './plain-text.ts';
import type { Part } from './part.ts';

/** Of our own, and not in the list of commands: the lamp's actions run it. */
const COMMAND = 'selvedge.tellLengthCosts';
/** Frames that a message names; the log names all. */
const NAMED = 3;

export type LengthCosts = Pick<FixedFrame, 'frame' | 'length'>;

/** Those that show less of the person than before. */
export function framesCloser(fixed: readonly LengthCosts[]): Required<LengthCosts>[] {
  return fixed.flatMap(({ frame, length }) => (length && isCloser(length) ? [{ frame, length }] : []));
}

/** "2 frames came down a length: …", naming some; undefined where none did. */
export function lengthCosts(fixed: readonly LengthCosts[], most = NAMED): string | undefined {
  const closer = framesCloser(fixed);
  if (closer.length === 0) return undefined;
  const named = closer.slice(0, most).map(({ frame, length }) => `${plainLine(frame.name, 60)} ${lengthWords(length)}`);
  const rest = closer.length - named.length;
  return `${closer.length === 1 ? '1 frame' : `${closer.length} frames`} came down a length: ${named.join('; ')}${rest === 0 ? '' : `; and ${rest} more`}.`;
}

/** What a fix comes to: the edit, and the frames with the lengths that it costs. */
export interface CostlyFix {
  readonly edit: WorkspaceEdit;
  readonly fixed: readonly LengthCosts[];
}

/** An action that fixes, worked out when it is chosen, and says after its edit which frames came down a length. */
export function fixAction(
  title: string,
  kind: CodeActionKind,
  repair: (signal: AbortSignal) => Promise<CostlyFix>,
): LazyAction {
  const done: { fixed: readonly LengthCosts[] } = { fixed: [] };
  const action = new LazyAction(title, kind, async (signal) => {
    const { edit, fixed } = await repair(signal);
    done.fixed = fixed;
    return edit;
  });
  action.command = tellingCosts(done);
  return action;
}

/** The command that an action has the editor run after its edit. */
export function tellingCosts(done: { readonly fixed: readonly LengthCosts[] }): Command {
  return { command: COMMAND, title: 'Say which frames came down a length', arguments: [done] };
}

export function tellLengthCosts(log: Log): Part {
  return commands.registerCommand(COMMAND, (done: { readonly fixed: readonly LengthCosts[] }) => {
    const words = lengthCosts(done.fixed);
    if (words === undefined) return;
    log.info(lengthCosts(done.fixed, Infinity)!);
    void window.showInformationMessage(words);
  });
}
