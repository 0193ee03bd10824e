import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { parse } from 'yaml';
import { generatedSession } from '../../scenes/session.ts';
import { median } from '../../truth/support/median.ts';
import { findingsOf, quiet, until, workspacePath } from './testing.ts';

/** One figure, in milliseconds: the median of its runs. */
export interface Latency {
  readonly what: string;
  readonly milliseconds: number;
  readonly runs: number;
}

const KEYSTROKES = 9;
const SHEETS = 5;
const COMPLETIONS = 3;
/** Milliseconds. */
const LONGEST = 120_000;

/** Times what a user waits for; run inside the extension host. */
export async function run(): Promise<void> {
  const found: Latency[] = [];
  const extension = vscode.extensions.getExtension('selvedge.selvedge')!;
  found.push({
    what: 'activation, in a window without a manifest',
    milliseconds: await timed(() => extension.activate()),
    runs: 1,
  });
  found.push({
    what: 'loading the rest, with the first manifest',
    milliseconds: await timed(() => vscode.commands.executeCommand('selvedge.showLog')),
    runs: 1,
  });
  for (const frames of [1000, 10_000]) found.push(...(await sessionOf(frames)));
  found.push(...(await hovers()));
  found.push(...(await sheets(2000)));
  writeFileSync(process.env['SELVEDGE_SUITE_RESULTS']!, JSON.stringify(found));
}

function writeSession(frames: number): vscode.Uri {
  const folder = workspacePath(`generated-${frames}`);
  mkdirSync(folder);
  const { manifest, people } = generatedSession(frames);
  writeFileSync(join(folder, 'crops.yaml'), manifest);
  writeFileSync(join(folder, 'crops.people.jsonl'), people);
  return vscode.Uri.file(join(folder, 'crops.yaml'));
}

function hasOutputs(document: vscode.TextDocument): boolean {
  return findingsOf(document).some(({ message }) => message.startsWith('Output '));
}

async function sessionOf(frames: number): Promise<Latency[]> {
  const uri = writeSession(frames);
  const open = await timed(async () => {
    const document = await vscode.workspace.openTextDocument(uri);
    await until('findings', () => findingsOf(document).length > 0, LONGEST);
  });
  const document = await vscode.workspace.openTextDocument(uri);
  const rest = await timed(() => until('findings of outputs', () => hasOutputs(document), LONGEST));
  await vscode.window.showTextDocument(document);
  await quiet();
  const yaml: number[] = [];
  const keys: number[] = [];
  for (let index = 0; index < KEYSTROKES; index++) {
    yaml.push(await timed(() => parse(document.getText()) as unknown));
    keys.push(await timed(() => typeDigit(document, index)));
    await quiet();
  }
  const name = `${frames} frames`;
  const completing: number[] = [];
  for (let index = 0; index < COMPLETIONS; index++) completing.push(await completeKey(document, index));
  return [
    { what: `${name}: completion of a key on a new line`, milliseconds: median(completing), runs: COMPLETIONS },
    { what: `${name}: from opening to findings of the frames`, milliseconds: open, runs: 1 },
    { what: `${name}: from opening to findings of the outputs, too`, milliseconds: open + rest, runs: 1 },
    { what: `${name}: yaml.parse of the same text`, milliseconds: median(yaml), runs: KEYSTROKES },
    {
      what: `${name}: from a keystroke to findings, the pause of 150 ms included`,
      milliseconds: median(keys),
      runs: KEYSTROKES,
    },
  ];
}

/** Types a digit of a crop in the middle of the text and waits until the findings were set anew. */
async function typeDigit(document: vscode.TextDocument, index: number): Promise<void> {
  const text = document.getText();
  const at = text.indexOf('y: 0.', Math.floor((text.length * (index + 3)) / 20)) + 'y: 0.'.length;
  const edit = new vscode.WorkspaceEdit();
  const range = new vscode.Range(document.positionAt(at), document.positionAt(at + 1));
  edit.replace(document.uri, range, text[at] === '1' ? '2' : '1');
  const changed = new Promise<void>((resolve) => {
    const listener = vscode.languages.onDidChangeDiagnostics(() => {
      listener.dispose();
      resolve();
    });
  });
  await vscode.workspace.applyEdit(edit);
  await changed;
}

/** From asking for proposals in the middle of the text, where a key may stand, to having them. */
async function completeKey(document: vscode.TextDocument, index: number): Promise<number> {
  const line = Math.floor((document.lineCount * (index + 3)) / 20);
  const at = document.lineAt(line).range.end;
  const edit = new vscode.WorkspaceEdit();
  edit.insert(document.uri, at, '\n    ');
  await vscode.workspace.applyEdit(edit);
  const place = document.lineAt(line + 1).range.end;
  const took = await timed(() =>
    vscode.commands.executeCommand('vscode.executeCompletionItemProvider', document.uri, place),
  );
  await vscode.commands.executeCommand('undo');
  await quiet();
  return took;
}

async function hovers(): Promise<Latency[]> {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.file(workspacePath('harbour', 'crops.yaml')));
  await quiet();
  const at = document.positionAt(document.getText().indexOf('boardwalk-02.jpg'));
  const hover = (): Promise<number> =>
    timed(() => vscode.commands.executeCommand('vscode.executeHoverProvider', document.uri, at));
  return [
    { what: 'hover with a picture, made', milliseconds: await hover(), runs: 1 },
    { what: 'hover with a picture, from the cache', milliseconds: await hover(), runs: 1 },
  ];
}

/** The command ends when the sheet's first screen of frames is drawn. */
async function sheets(frames: number): Promise<Latency[]> {
  const uri = writeSession(frames);
  const document = await vscode.workspace.openTextDocument(uri);
  await vscode.window.showTextDocument(document);
  await until('findings', () => findingsOf(document).length > 0, LONGEST);
  await quiet();
  const times: number[] = [];
  for (let index = 0; index < SHEETS; index++) {
    times.push(await timed(() => vscode.commands.executeCommand('selvedge.contactSheet', uri)));
    const isSheet = ({ label }: vscode.Tab): boolean => label.startsWith('Contact Sheet');
    await vscode.window.tabGroups.close(vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs.filter(isSheet)));
  }
  const what = `${frames} frames: from the command to the contact sheet's first screen of frames`;
  return [{ what, milliseconds: median(times), runs: SHEETS }];
}

async function timed(work: () => unknown): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}
