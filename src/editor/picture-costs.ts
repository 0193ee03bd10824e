import type { CodeActionKind, Command, Uri, WorkspaceEdit } from 'vscode';
import { commands, window } from 'vscode';
import { count } from '../report/text.ts';
import type { FixedFrame } from '../session/fix-report.ts';
import { leftOutWords } from '../session/left-out.ts';
import { isCloser, lengthWords } from '../session/length-change.ts';
import { LazyAction } from './lazy-action.ts';
import type { Log } from './log.ts';
import type { OpenManifest } from './open-manifest.ts';
import { plainLabel, plainLine } from './plain-text.ts';
import type { Part } from './part.ts';

/** Of our own, and not in the list of commands: the lamp's actions run it. */
const COMMAND = 'selvedge.tellCosts';
/** Frames that a message names; the log names all. */
const NAMED = 3;
export const GO_TO_FRAME = 'Go to a Frame';

/** What is told of a fixed frame: the length that it shows now, and who is not in it any more. */
export type PictureChange = Pick<FixedFrame, 'frame' | 'length' | 'leftOut'>;

/** A frame that shows less than before, and what it lost in words. */
interface CostlyFrame {
  readonly frame: PictureChange['frame'];
  /** "from full length to half length, leaves out person 2". */
  readonly words: string;
}

/** Those that show less of the person than before, or not everybody. */
export function costlyFrames(fixed: readonly PictureChange[]): CostlyFrame[] {
  return fixed.flatMap(({ frame, length, leftOut }) => {
    const lengths = length && isCloser(length) ? [lengthWords(length)] : [];
    const words = [...lengths, ...(leftOut ? [leftOutWords(leftOut)] : [])];
    return words.length === 0 ? [] : [{ frame, words: words.join(', ') }];
  });
}

/** What happened to these frames: "came down a length", "lost somebody", or both. */
export function costName(fixed: readonly PictureChange[]): string {
  const isAny = (has: (change: PictureChange) => boolean, words: string): string[] => (fixed.some(has) ? [words] : []);
  return [
    ...isAny(({ length }) => length !== undefined && isCloser(length), 'came down a length'),
    ...isAny(({ leftOut }) => leftOut !== undefined, 'lost somebody'),
  ].join(' or ');
}

/** "2 frames came down a length: …", naming some; undefined where none did. */
export function pictureCosts(fixed: readonly PictureChange[], most = NAMED): string | undefined {
  const costly = costlyFrames(fixed);
  if (costly.length === 0) return undefined;
  const named = costly.slice(0, most).map(({ frame, words }) => `${plainLine(frame.name, 60)} ${words}`);
  const rest = costly.length - named.length;
  return `${count(costly.length, 'frame')} ${costName(fixed)}: ${named.join('; ')}${rest === 0 ? '' : `; and ${rest} more`}.`;
}

/** "4 of them came down a length", to end what was said of many frames; empty where none did. */
export function costsCount(fixed: readonly PictureChange[]): string {
  const costly = costlyFrames(fixed).length;
  return costly === 0 ? '' : `, ${costly} of them ${costName(fixed)}`;
}

/** What a fix comes to: the edit, and the frames with what each shows then. */
export interface CostlyFix {
  readonly edit: WorkspaceEdit;
  readonly fixed: readonly PictureChange[];
}

/** What a fix of a manifest cost, once its edit was made. */
export interface FixCosts {
  readonly uri: Uri;
  readonly fixed: readonly PictureChange[];
}

/** An action that fixes, worked out when it is chosen, and says after its edit which frames show less than before. */
export function fixAction(
  { document }: Pick<OpenManifest, 'document'>,
  title: string,
  kind: CodeActionKind,
  repair: (signal: AbortSignal) => Promise<CostlyFix>,
): LazyAction {
  const done: { uri: Uri; fixed: readonly PictureChange[] } = { uri: document.uri, fixed: [] };
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
  return { command: COMMAND, title: 'Say which frames show less than before', arguments: [done] };
}

export function tellPictureCosts(log: Log): Part {
  return commands.registerCommand(COMMAND, ({ uri, fixed }: FixCosts) => {
    const words = pictureCosts(fixed);
    if (words === undefined) return;
    log.info(pictureCosts(fixed, Infinity)!);
    // The message waits for somebody; the command does not.
    void window.showInformationMessage(words, GO_TO_FRAME).then((answer) => {
      if (answer !== undefined) void goToCostly(uri, fixed);
    });
  });
}

/** Goes to the only frame that shows less than before, or to the one that is chosen. */
export async function goToCostly(uri: Uri, fixed: readonly PictureChange[]): Promise<void> {
  const items = costlyFrames(fixed).map(({ frame, words }) => ({
    label: plainLabel(frame.name, 120),
    description: words,
    frame,
  }));
  const title = `Frames that ${costName(fixed)}`;
  const chosen = items.length === 1 ? items[0] : await window.showQuickPick(items, { title });
  if (chosen) await commands.executeCommand('selvedge.sessions.goToFrame', uri, chosen.frame.index, chosen.frame.name);
}
