import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import * as vscode from 'vscode';

/** A test that runs inside the extension host. */
export interface HostTest {
  readonly name: string;
  readonly run: () => Promise<void>;
  /** Why it cannot be done on this machine. */
  readonly skipped?: string | undefined;
}

const LONGEST_ERROR = 2000;

/** Runs tests one after the other and writes how they went; the file is there only when all have ended. */
export async function runAll(tests: readonly HostTest[]): Promise<void> {
  const results = [];
  for (const { name, run, skipped } of tests) {
    if (skipped !== undefined) {
      results.push({ name, skipped });
      continue;
    }
    try {
      await run();
      results.push({ name });
    } catch (error) {
      const said = error instanceof Error ? (error.stack ?? error.message) : String(error);
      results.push({ name, error: said.slice(0, LONGEST_ERROR) });
    }
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  }
  writeFileSync(process.env['SELVEDGE_SUITE_RESULTS']!, JSON.stringify(results));
}

const LONGEST = 20_000;

/** Waits until `find` gives something. */
export async function until<T>(
  what: string,
  find: () => T | undefined | false | Promise<T | undefined | false>,
  longest = LONGEST,
): Promise<T> {
  for (let waited = 0; ; waited += 50) {
    const found = await find();
    if (found !== undefined && found !== false) return found;
    if (waited > longest) throw new Error(`Waited in vain for ${what}.`);
    await sleep(50);
  }
}

export function workspacePath(...parts: string[]): string {
  return join(vscode.workspace.workspaceFolders![0]!.uri.fsPath, ...parts);
}

/** Opens a manifest and waits until something was found in it. */
export async function openManifest(...parts: string[]): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.file(workspacePath(...parts)));
  await vscode.window.showTextDocument(document);
  await until('findings', () => findingsOf(document).length > 0);
  await quiet();
  return document;
}

const QUIET = 600;

/** Waits until no finding has changed for a while. */
export async function quiet(): Promise<void> {
  let last = Date.now();
  const listener = vscode.languages.onDidChangeDiagnostics(() => {
    last = Date.now();
  });
  while (Date.now() - last < QUIET) await sleep(50);
  listener.dispose();
}

export function findingsOf(document: vscode.TextDocument): vscode.Diagnostic[] {
  return vscode.languages.getDiagnostics(document.uri).filter(({ source }) => source === 'selvedge');
}

export function ruleOf({ code }: vscode.Diagnostic): string {
  return typeof code === 'object' ? String(code.value) : String(code);
}

/** Puts `to` in place of the only `from`. */
export async function replace(document: vscode.TextDocument, from: string, to: string): Promise<void> {
  const at = document.getText().indexOf(from);
  if (at === -1) throw new Error(`There is no ${from} in the text.`);
  const edit = new vscode.WorkspaceEdit();
  const range = new vscode.Range(document.positionAt(at), document.positionAt(at + from.length));
  edit.replace(document.uri, range, to);
  if (!(await vscode.workspace.applyEdit(edit))) throw new Error('The edit was refused.');
}

/** The actions that the editor offers at a range, each with its edit. */
export async function actionsAt(
  document: vscode.TextDocument,
  range: vscode.Range,
  kind?: string,
): Promise<vscode.CodeAction[]> {
  return vscode.commands.executeCommand('vscode.executeCodeActionProvider', document.uri, range, kind, 40);
}

/** The actions and those that are behind the last entry of the menu, each with its edit. */
export async function withMore(actions: readonly vscode.CodeAction[]): Promise<vscode.CodeAction[]> {
  const more = actions.find(({ title }) => title === 'More …');
  const rare = (more?.command?.arguments?.[0] ?? []) as (vscode.CodeAction & {
    make?: (signal: AbortSignal) => Promise<vscode.WorkspaceEdit | undefined>;
  })[];
  for (const action of rare) {
    const edit = await action.make?.(new AbortController().signal);
    if (edit) action.edit = edit;
  }
  return [...actions, ...rare];
}

/** Makes an action's edit, as choosing it does. */
export async function choose(actions: readonly vscode.CodeAction[], title: RegExp): Promise<void> {
  const action = actions.find((each) => title.test(each.title));
  assert.ok(action, `${String(title)} among ${actions.map((each) => each.title).join('; ')}`);
  if (action.edit) assert.ok(await vscode.workspace.applyEdit(action.edit));
  if (action.command)
    await vscode.commands.executeCommand(action.command.command, ...((action.command.arguments ?? []) as unknown[]));
}

export async function undo(): Promise<void> {
  await vscode.commands.executeCommand('undo');
}

/** Where a text stands that is there once, or first. */
export function rangeOf(document: vscode.TextDocument, text: string): vscode.Range {
  const at = document.getText().indexOf(text);
  assert.ok(at >= 0, `${text} is in the text`);
  return new vscode.Range(document.positionAt(at), document.positionAt(at + text.length));
}

/** Presses Enter in whatever box the command opens, until the command is done. */
export async function accepting(command: Thenable<unknown>): Promise<void> {
  let isDone = false;
  const done = Promise.resolve(command).finally(() => {
    isDone = true;
  });
  await until('the command to end', async () => {
    if (!isDone) await vscode.commands.executeCommand('workbench.action.acceptSelectedQuickOpenItem');
    return isDone;
  });
  await done;
}
