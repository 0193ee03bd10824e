import type { CodeActionKind, Command, Uri, WorkspaceEdit } from 'vscode';
import { commands, window } from 'vscode';
import { count } from '../report/text.ts';
import type { FixedFrame } from '../session/fix-report.ts';
import { isCloser, lengthWords } from '../session/length-change.ts';
import { LazyAction } from './lazy-action.ts';
import type { Log } from './log.ts';
import type { OpenManifest } from './open-manifest.ts';
import { plainLabel, plainLine } from './plain-text.ts';
import type { Part } from './part.ts';

/** Of our own, and not in the list of commands: the lamp's actions run it. */
const COMMAND = 'selvedge.tellLengthCosts';
/** Frames that a message names; the log names all. */
const NAMED = 3;
export const GO_TO_FRAME = 'Go to a Frame';

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
  return `${count(closer.length, 'frame')} came down a length: ${named.join('; ')}${rest === 0 ? '' : `; and ${rest} more`}.`;
}

/** "4 of them came down a length", to end what was said of many frames; empty where none did. */
export function costsCount(fixed: readonly LengthCosts[]): string {
  const closer = framesCloser(fixed).length;
  return closer === 0 ? '' : `, ${closer} of them came down a length`;
}

/** What a fix comes to: the edit, and the frames with the lengths that it costs. */
export interface CostlyFix {
  readonly edit: WorkspaceEdit;
  readonly fixed: readonly LengthCosts[];
}

/** What a fix of a manifest cost, once its edit was made. */
export interface FixCosts {
  readonly uri: Uri;
  readonly fixed: readonly LengthCosts[];
}

/** An action that fixes, worked out when it is chosen, and says after its edit which frames came down a length. */
export function fixAction(
  { document }: Pick<OpenManifest, 'document'>,
  title: string,
  kind: CodeActionKind,
  repair: (signal: AbortSignal) => Promise<CostlyFix>,
): LazyAction {
  const done: { uri: Uri; fixed: readonly LengthCosts[] } = { uri: document.uri, fixed: [] };
  const action = new LazyAction(title, kind, async (signal) => {
    const { edit, fixed } = await repair(signal);
    done.fixed = fixed;
    return edit;
  });
  action.command = tellingCosts(done);
  return action;
}

/** The command that an action has the editor run after its edit. */
export function tellingCosts(done: FixCosts): Command {
  return { command: COMMAND, title: 'Say which frames came down a length', arguments: [done] };
}

export function tellLengthCosts(log: Log): Part {
  return commands.registerCommand(COMMAND, ({ uri, fixed }: FixCosts) => {
    const words = lengthCosts(fixed);
    if (words === undefined) return;
    log.info(lengthCosts(fixed, Infinity)!);
    // The message waits for somebody; the command does not.
    void window.showInformationMessage(words, GO_TO_FRAME).then((answer) => {
      if (answer !== undefined) void goToCloser(uri, fixed);
    });
  });
}

/** Goes to the only frame that came down a length, or to the one that is chosen. */
export async function goToCloser(uri: Uri, fixed: readonly LengthCosts[]): Promise<void> {
  const frames = framesCloser(fixed);
  const items = frames.map(({ frame, length }) => ({
    label: plainLabel(frame.name, 120),
    description: lengthWords(length),
    frame,
  }));
  const title = 'Frames that came down a length';
  const chosen = items.length === 1 ? items[0] : await window.showQuickPick(items, { title });
  if (chosen) await commands.executeCommand('selvedge.sessions.goToFrame', uri, chosen.frame.index, chosen.frame.name);
}
