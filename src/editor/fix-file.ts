import type { TextDocument, Uri, WorkspaceEdit } from 'vscode';
import { commands, ProgressLocation, Selection, TextEditorRevealType, window, workspace } from 'vscode';
import { repairFrames, type Repairs } from '../session/fix.ts';
import { signalOf } from './cancelling.ts';
import { editorOf } from './frame-at-cursor.ts';
import { costsCount, GO_TO_FRAME, goToCostly } from './picture-costs.ts';
import { logRepairs } from './log-repairs.ts';
import { documentInView } from './manifest-files.ts';
import { messageOf, type Log } from './log.ts';
import type { OpenManifest } from './open-manifest.ts';
import type { OpenManifests } from './open-manifests.ts';
import { workspaceEdit } from './places.ts';
import { plainMessage } from './plain-text.ts';
import type { Part } from './part.ts';

const SHOW_WHY = 'Show Why';

export interface FileRepair extends Repairs {
  readonly edit: WorkspaceEdit;
}

/**
 * The edit that repairs all frames of a file, or all that one rule says.
 * @throws the signal's reason when it aborts
 */
export async function repairFile(
  manifest: OpenManifest,
  options: { readonly rule?: string | undefined; readonly signal: AbortSignal },
): Promise<FileRepair> {
  const check = await manifest.check(options.signal);
  const { rule, signal } = options;
  const repairs = await repairFrames(check, { ...(rule !== undefined && { rules: [rule] }), signal });
  if (manifest.document.getText() !== check.session.manifest.text) {
    throw new Error('The text was changed meanwhile, and nothing was fixed. Do the same again.');
  }
  return { ...repairs, edit: workspaceEdit(manifest.document, repairs.edits) };
}

/** The command: one edit for the whole file, then what was done and what is left. */
export function fixFiles(manifests: OpenManifests, log: Log): Part {
  return commands.registerCommand('selvedge.fixFile', async () => {
    const document = documentInView();
    const manifest = document && (await manifests.of(document));
    if (!manifest) return;
    try {
      const repair = await window.withProgress(
        { location: ProgressLocation.Notification, title: 'Looking for better crops', cancellable: true },
        (_, token) => repairFile(manifest, { signal: signalOf(token) }),
      );
      if (repair.edits.length > 0) await keepingPlace(document, () => workspace.applyEdit(repair.edit));
      // The message waits for somebody; the command does not.
      void tell(document.uri, repair, log);
    } catch (error) {
      if (error instanceof Error && error.name === 'AbortError') return;
      void window.showErrorMessage(plainMessage(messageOf(error)));
    }
  });
}

/** Many edits at once can take the cursor with them; whoever stood on a frame stays there. */
async function keepingPlace(document: TextDocument, edit: () => Thenable<unknown>): Promise<void> {
  const editor = editorOf(document);
  const place = editor?.selection.active;
  const seen = editor?.visibleRanges[0];
  await edit();
  if (!editor || !place || editor.selection.active.line === place.line) return;
  editor.selection = new Selection(place, place);
  if (seen) editor.revealRange(seen, TextEditorRevealType.AtTop);
}

async function tell(uri: Uri, repair: FileRepair, log: Log): Promise<void> {
  logRepairs(repair, log);
  const { fixed } = repair;
  const costs = costsCount(fixed);
  const needs = needsYouWords(repair);
  const words = `${fixed.length} ${fixed.length === 1 ? 'frame has a new crop' : 'frames have new crops'}${costs}.`;
  const buttons = [...(needs === '' ? [] : [SHOW_WHY]), ...(costs === '' ? [] : [GO_TO_FRAME])];
  const answer = await window.showInformationMessage(`${words}${needs}`, ...buttons);
  if (answer === SHOW_WHY) log.show();
  else if (answer === GO_TO_FRAME) await goToCostly(uri, fixed);
}

/** As the command line counts them: frames, and what is about the session as a whole. Empty when nothing needs anybody. */
function needsYouWords({ stopped, untouched, needsYou }: Repairs): string {
  const frames = untouched.length + new Set(needsYou.flatMap(({ frame }) => frame ?? [])).size;
  const whole = (stopped ? 1 : 0) + needsYou.filter(({ frame }) => frame === undefined).length;
  const ofFrames = frames === 0 ? '' : ` ${frames} ${frames === 1 ? 'frame needs' : 'frames need'} you.`;
  return whole === 0 ? ofFrames : `${ofFrames} The session as a whole needs you.`;
}
