import type { TextDocument, Uri } from 'vscode';
import { CodeAction, CodeActionKind, commands, ProgressLocation, window, workspace, WorkspaceEdit } from 'vscode';
import { count } from '../report/text.ts';
import { RULES } from '../rules/index.ts';
import { repairFrames, type Repairs } from '../session/fix.ts';
import { LiveSession } from '../session/live-session.ts';
import { openSessionText } from '../session/session.ts';
import { signalOf } from './cancelling.ts';
import { costlyFrames, costsCount } from './picture-costs.ts';
import { logRepairs } from './log-repairs.ts';
import { messageOf, type Log } from './log.ts';
import { lookingAtPhotos } from './look-at-photos.ts';
import type { PhotoRoom } from './photo-room.ts';
import { addEdits } from './places.ts';
import { EDITOR_REMEDIES } from './remedies.ts';
import { plainLabel, plainLine, plainMessage } from './plain-text.ts';
import type { Part } from './part.ts';
import { manifestUris, nameOf, photosFolderFor } from './workspace-manifests.ts';

const COMMAND = 'selvedge.fixRuleEverywhere';

/** What one rule's repair comes to in one manifest. */
interface FileRepair {
  readonly document: TextDocument;
  /** The text that the edits are for. */
  readonly text: string;
  readonly repairs: Repairs;
}

/** The action for a rule; none where the folder is not trusted. */
export function everywhereActions(rules: Iterable<string>): CodeAction[] {
  if (!workspace.isTrusted) return [];
  return [...rules].map((rule) => {
    const action = new CodeAction(`Fix every ${rule} in all sessions …`, CodeActionKind.QuickFix);
    action.command = { command: COMMAND, title: action.title, arguments: [rule] };
    return action;
  });
}

/** The command: looks through all sessions of the workspace, says how many frames it is about, then makes one edit. */
export function fixEverywhere(room: PhotoRoom, log: Log): Part {
  return commands.registerCommand(COMMAND, async (given: unknown) => {
    if (!workspace.isTrusted) {
      void window.showWarningMessage('Sessions are changed only in a folder that you trust.');
      return;
    }
    const rule = typeof given === 'string' ? given : await askRule();
    if (rule === undefined || !RULES.some(({ id }) => id === rule)) return;
    try {
      const chosen = await choose(rule, await lookThrough(rule, room, log));
      if (chosen.length > 0) await apply(rule, chosen, log);
    } catch (error) {
      if (error instanceof Error && error.name === 'AbortError') return;
      void window.showErrorMessage(plainMessage(messageOf(error)));
    }
  });
}

async function askRule(): Promise<string | undefined> {
  const rules = RULES.map(({ id, summary }) => ({ label: id, detail: summary }));
  const picked = await window.showQuickPick(rules, { title: 'Fix one rule in all sessions', matchOnDetail: true });
  return picked?.label;
}

async function lookThrough(rule: string, room: PhotoRoom, log: Log): Promise<FileRepair[]> {
  const uris = await manifestUris();
  return window.withProgress(
    { location: ProgressLocation.Notification, title: `Looking for better crops: ${rule}`, cancellable: true },
    async (progress, token) => {
      const found: FileRepair[] = [];
      for (const uri of uris) {
        progress.report({ message: plainLine(nameOf(uri), 80), increment: 100 / uris.length });
        const repair = await repairOf(uri, rule, room, signalOf(token)).catch((error: unknown) => {
          if (token.isCancellationRequested) throw error;
          log.warn(`${uri.fsPath}: ${messageOf(error)}`);
          return undefined;
        });
        if (repair && repair.repairs.edits.length > 0) found.push(repair);
      }
      return found;
    },
  );
}

/** As the command line's `fix --rule` does, from the text that the editor has. */
async function repairOf(uri: Uri, rule: string, room: PhotoRoom, signal: AbortSignal): Promise<FileRepair> {
  const document = await workspace.openTextDocument(uri);
  const photosFolder = photosFolderFor(uri);
  const session = await openSessionText(uri.fsPath, document.getText(), { photosFolder, remedies: EDITOR_REMEDIES });
  const photos = [...new Set(session.manifest.frames.map(({ photo }) => photo.value))];
  const states = new Map(await lookingAtPhotos(room)(session, photos, signal));
  const check = await new LiveSession(session, states).check(signal);
  return { document, text: session.manifest.text, repairs: await repairFrames(check, { rules: [rule], signal }) };
}

/** Says how many frames of which sessions it is about; each session can be left out. */
async function choose(rule: string, found: readonly FileRepair[]): Promise<readonly FileRepair[]> {
  if (found.length === 0) {
    void window.showInformationMessage(`No session has a frame that can be fixed for ${rule}.`);
    return [];
  }
  const frames = found.reduce((sum, { repairs }) => sum + repairs.fixed.length, 0);
  const items = found.map((repair) => ({
    label: plainLabel(nameOf(repair.document.uri), 120),
    description: count(repair.repairs.fixed.length, 'frame'),
    picked: true,
    repair,
  }));
  const picked = await window.showQuickPick(items, {
    canPickMany: true,
    title: `Fix ${rule}: ${count(frames, 'frame')} in ${count(found.length, 'session')}`,
    placeHolder: 'Enter gives these frames their new crops; Escape changes nothing',
  });
  return (picked ?? []).map(({ repair }) => repair);
}

async function apply(rule: string, chosen: readonly FileRepair[], log: Log): Promise<void> {
  const edit = new WorkspaceEdit();
  for (const { document, text, repairs } of chosen) {
    // It may have been closed meanwhile, and changed on the disk.
    const current = await workspace.openTextDocument(document.uri);
    if (current.getText() !== text) {
      throw new Error(`${nameOf(document.uri)} was changed meanwhile, and nothing was fixed. Do the same again.`);
    }
    addEdits(edit, current, repairs.edits);
  }
  if (!(await workspace.applyEdit(edit, { isRefactoring: true }))) {
    throw new Error('The editor did not take the edit, and nothing was fixed.');
  }
  for (const { document, repairs } of chosen) {
    log.info(nameOf(document.uri));
    logRepairs(repairs, log);
  }
  const fixed = chosen.flatMap(({ repairs }) => repairs.fixed);
  const left = chosen.flatMap(({ repairs }) => repairs.needsYou);
  const frames = new Set(left.map(({ frame }) => frame)).size;
  const needs = frames === 0 ? '' : ` ${count(frames, 'frame')} with ${rule} ${frames === 1 ? 'needs' : 'need'} you.`;
  const words = `${count(fixed.length, 'frame')} fixed in ${count(chosen.length, 'session')}${costsCount(fixed)}.${needs}`;
  const hasMore = needs !== '' || costlyFrames(fixed).length > 0;
  // The message waits for somebody; the command does not.
  void window.showInformationMessage(words, ...(hasMore ? ['Show Which'] : [])).then((answer) => {
    if (answer !== undefined) log.show();
  });
}
