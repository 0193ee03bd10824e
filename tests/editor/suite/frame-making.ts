import assert from 'node:assert/strict';
import { copyFileSync, cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { selvedge, textAfterFix } from './command-line.ts';
import {
  accepting,
  actionsAt,
  choose,
  findingsOf,
  openManifest,
  rangeOf,
  ruleOf,
  undo,
  until,
  workspacePath,
  withMore,
  type HostTest,
} from './testing.ts';

async function frameNames(document: vscode.TextDocument): Promise<string[]> {
  const symbols: vscode.DocumentSymbol[] = await vscode.commands.executeCommand(
    'vscode.executeDocumentSymbolProvider',
    document.uri,
  );
  return symbols.filter(({ kind }) => kind === vscode.SymbolKind.File).map(({ name }) => name);
}

/** Errors and warnings on the lines of an entry. */
function findingsFrom(document: vscode.TextDocument, start: string, lines: number): vscode.Diagnostic[] {
  const { line } = rangeOf(document, start).start;
  return findingsOf(document).filter(
    ({ range, severity }) =>
      severity <= vscode.DiagnosticSeverity.Warning && range.start.line >= line && range.start.line < line + lines,
  );
}

/** A session whose second and third photo are the first once more; the fourth shows two people. */
function makeBurst(): void {
  const folder = workspacePath('burst');
  mkdirSync(folder);
  const lines = readFileSync(workspacePath('harbour', 'crops.people.jsonl'), 'utf8').split('\n');
  const copy = (photo: string, name: string): string => {
    copyFileSync(workspacePath('harbour', 'proofs', photo), join(folder, name));
    return lines.find((line) => line.includes(`"photo":"${photo}"`))!.replace(photo, name);
  };
  const people = [
    ...['first.jpg', 'second.jpg', 'third.jpg'].map((name) => copy('boardwalk-06.jpg', name)),
    copy('boardwalk-04.jpg', 'couple.jpg'),
  ];
  writeFileSync(join(folder, 'crops.people.jsonl'), `${people.join('\n')}\n`);
  const frames = [
    '  - photo: first.jpg',
    '    length: half-length',
    '  - photo: second.jpg',
    '    length: close-up',
    '  - photo: third.jpg',
    '    final: true',
    '  - photo: couple.jpg',
  ];
  writeFileSync(join(folder, 'crops.yaml'), `selvedge: 1\nframes:\n${frames.join('\n')}\n`);
  selvedge('fix', join(folder, 'crops.yaml'), '--frame', 'first.jpg', '--any-length');
}

export const frameMaking: HostTest[] = [
  {
    name: 'another length of the same photo becomes a frame of its own, and one undo takes it back',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const before = document.getText();
      const actions = await withMore(await actionsAt(document, rangeOf(document, 'boardwalk-06.jpg')));
      const adding = actions.filter(({ title }) => /^Add boardwalk-06\.jpg once more, as /.test(title));
      assert.ok(adding.length >= 3, adding.map(({ title }) => title).join('; '));
      await choose(actions, /^Add boardwalk-06\.jpg once more, as half length$/);
      const lines = before.split('\n');
      const at = lines.findIndex((line) => line.includes('photo: boardwalk-06.jpg')) + 2;
      const now = document.getText().split('\n');
      assert.equal(now[at], '  - photo: boardwalk-06.jpg');
      assert.match(now[at + 1]!, /^ {4}crop: \{ x: [\d.]+, y: [\d.]+, w: [\d.]+, h: [\d.]+ \}$/);
      assert.equal(now[at + 2], '    length: half-length');
      assert.deepEqual([...now.slice(0, at), ...now.slice(at + 3)], lines);
      assert.ok((await frameNames(document)).includes('boardwalk-06.jpg#2'));
      await undo();
      assert.equal(document.getText(), before);
    },
  },
  {
    name: 'a crop is carried to the next frames, an approved one is left alone, and one undo takes it back',
    run: async () => {
      makeBurst();
      const document = await openManifest('burst', 'crops.yaml');
      const before = document.getText();
      const editor = vscode.window.activeTextEditor!;
      const at = rangeOf(document, 'first.jpg').start;
      editor.selection = new vscode.Selection(at, at);
      const titles = (await withMore(await actionsAt(document, new vscode.Range(at, at)))).map(({ title }) => title);
      assert.ok(titles.includes('Carry this crop to the next frames …'), titles.join('; '));
      await accepting(vscode.commands.executeCommand('selvedge.carryCrop'));
      const crop = /crop: \{[^}]+\}/.exec(before)![0];
      await until('the crop in the second frame', () =>
        document.getText().includes(`  - photo: second.jpg\n    ${crop}\n    length: half-length\n`),
      );
      assert.ok(document.getText().endsWith('  - photo: third.jpg\n    final: true\n  - photo: couple.jpg\n'));
      await until('a clean second frame', () => findingsFrom(document, 'second.jpg', 3).length === 0);
      await undo();
      assert.equal(document.getText(), before);
    },
  },
  {
    name: 'one rule is fixed in all sessions as fix --rule does in each',
    run: async () => {
      cpSync(workspacePath('harbour'), workspacePath('harbour again'), { recursive: true });
      const harbour = await openManifest('harbour', 'crops.yaml');
      const again = await vscode.workspace.openTextDocument(workspacePath('harbour again', 'crops.yaml'));
      const before = [harbour.getText(), again.getText()];
      const expected = [harbour, again].map((document) => textAfterFix(document, '--rule', 'headroom'));
      assert.ok(
        expected.every((text, index) => text !== before[index]),
        'the command line fixes both',
      );
      const finding = await until('headroom', () => findingsOf(harbour).find((found) => ruleOf(found) === 'headroom'));
      const actions = await withMore(await actionsAt(harbour, finding.range));
      const action = actions.find(({ title }) => title === 'Fix every headroom in all sessions …');
      assert.ok(action?.command);
      const { command, arguments: given = [] } = action.command;
      // A list that is accepted before its marks are drawn is accepted without any: then it is asked for again.
      for (let attempt = 0; attempt < 3 && harbour.getText() === before[0]; attempt++) {
        await accepting(vscode.commands.executeCommand(command, ...(given as unknown[])));
      }
      assert.equal(harbour.getText(), expected[0]);
      assert.equal(again.getText(), expected[1]);
      for (const [index, document] of [harbour, again].entries()) {
        const edit = new vscode.WorkspaceEdit();
        edit.replace(document.uri, new vscode.Range(0, 0, document.lineCount, 0), before[index]!);
        await vscode.workspace.applyEdit(edit);
        await document.save();
      }
      rmSync(workspacePath('harbour again'), { recursive: true });
    },
  },
  {
    name: 'going to a frame puts the cursor on its photo',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const editor = vscode.window.activeTextEditor!;
      editor.selection = new vscode.Selection(0, 0, 0, 0);
      await accepting(vscode.commands.executeCommand('selvedge.goToFrame'));
      assert.ok(editor.selection.active.isEqual(rangeOf(document, 'boardwalk-01.jpg').start));
    },
  },
];
