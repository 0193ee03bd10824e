import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import * as vscode from 'vscode';
import { findingsByCommandLine, textAfterFix } from './command-line.ts';
import {
  actionsAt,
  choose,
  findingsOf,
  openManifest,
  ruleOf,
  undo,
  until,
  workspacePath,
  withMore,
  type HostTest,
} from './testing.ts';

/** Entries of a menu that somebody reads through. */
const MOST = 12;

/** The first error or warning of a rule. */
async function findingOf(document: vscode.TextDocument, rule: string): Promise<vscode.Diagnostic> {
  return until(rule, () =>
    findingsOf(document).find((found) => ruleOf(found) === rule && found.severity <= vscode.DiagnosticSeverity.Warning),
  );
}

/** The one line that differs; fails when more do. */
function changedLine(before: string, after: string): string {
  const [old, now] = [before.split('\n'), after.split('\n')];
  const changed = now.filter((line, index) => line !== old[index]);
  assert.equal(old.length, now.length);
  assert.equal(changed.length, 1, changed.join('\n'));
  return changed[0]!;
}

export const codeActions: HostTest[] = [
  {
    name: 'a finding’s fixes are those of the command line, the best one first and preferred',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const before = document.getText();
      const expected = findingsByCommandLine(document.uri.fsPath).filter(({ fixes }) => fixes && fixes.length > 0);
      assert.ok(expected.length > 3);
      for (const { rule, line, column, fixes } of expected.slice(0, 4)) {
        const at = new vscode.Position(line - 1, column - 1);
        const finding = await until(rule, () =>
          findingsOf(document).find((found) => ruleOf(found) === rule && found.range.start.isEqual(at)),
        );
        const actions = await actionsAt(document, finding.range, vscode.CodeActionKind.QuickFix.value);
        const titles = actions.map(({ title }) => title);
        for (const { title } of fixes!) assert.ok(titles.includes(title), `${title} among ${titles.join('; ')}`);
        const preferred = actions.filter(({ isPreferred }) => isPreferred === true);
        assert.ok(preferred.some(({ title }) => title === fixes![0]!.title));
        await choose(actions, new RegExp(`^${fixes![0]!.title.replace(/[^\w\s]/g, '.')}$`));
        const { x, y, w, h } = fixes![0]!.crop;
        await until('the new numbers', () => document.getText().includes(`{ x: ${x}, y: ${y}, w: ${w}, h: ${h} }`));
        await undo();
        assert.equal(document.getText(), before);
      }
    },
  },
  {
    name: 'in front of a frame’s dash the frame is offered what it is offered at its name',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const { range } = await findingOf(document, 'headroom');
      const dash = new vscode.Position(range.start.line - 1, 0);
      assert.match(document.lineAt(dash).text, /^ *- photo/);
      const titles = (await actionsAt(document, new vscode.Range(dash, dash))).map(({ title }) => title);
      assert.ok(
        titles.some((title) => title.startsWith('Fix this frame')),
        titles.join('; '),
      );
    },
  },
  {
    name: 'the menu of a finding begins with its fixes, then the frame and the file, and allows nothing else',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const finding = await findingOf(document, 'face-cut');
      const offered = await actionsAt(document, finding.range, vscode.CodeActionKind.QuickFix.value);
      assert.ok(offered.length <= MOST, offered.map(({ title }) => title).join('; '));
      const actions = await withMore(offered);
      const titles = actions.map(({ title }) => title);
      const place = (start: string): number => titles.findIndex((title) => title.startsWith(start));
      const order = ['Nearest clean crop', 'Fix this frame', 'Fix all frames', 'Allow ', 'More ', 'Fix every '].map(
        place,
      );
      assert.ok(!order.includes(-1), titles.join('; '));
      assert.deepEqual(
        order,
        [...order].sort((first, second) => first - second),
        titles.join('; '),
      );
      const here = findingsOf(document).filter(({ range }) => range.isEqual(finding.range));
      const rules = new Set(here.map(ruleOf));
      const allowed = titles.flatMap((title) => /^Allow ([a-z-]+)/.exec(title)?.[1] ?? []);
      assert.equal(new Set(allowed).size, allowed.length, titles.join('; '));
      const every = titles.flatMap((title) => /^Fix every ([a-z-]+)/.exec(title)?.[1] ?? []);
      for (const rule of [...allowed, ...every]) assert.ok(rules.has(rule), rule);
    },
  },
  {
    name: 'fix this frame changes one frame, as fix --frame does',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const finding = await findingOf(document, 'face-cut');
      const expected = textAfterFix(document, '--frame', 'boardwalk-01.jpg#2');
      assert.ok(expected !== document.getText(), 'the command line fixes something');
      await choose(await actionsAt(document, finding.range), /^Fix this frame: boardwalk-01\.jpg#2$/);
      assert.equal(document.getText(), expected);
      changedLine(readFileSync(document.uri.fsPath, 'utf8'), expected);
    },
  },
  {
    name: 'fix all frames gives the command line’s text, leaves nothing that can be fixed, and one undo takes it back',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const before = document.getText();
      const expected = textAfterFix(document);
      assert.ok(expected !== before, 'the command line fixes something');
      const finding = await findingOf(document, 'face-cut');
      await choose(await actionsAt(document, finding.range), /^Fix all frames in this file$/);
      assert.equal(document.getText(), expected);
      assert.equal(textAfterFix(document), expected);
      await undo();
      assert.equal(document.getText(), before);
    },
  },
  {
    name: 'fix every finding of one rule gives the text of fix --rule',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const expected = textAfterFix(document, '--rule', 'headroom');
      assert.ok(expected !== document.getText(), 'the command line fixes something');
      const finding = await findingOf(document, 'headroom');
      await choose(await withMore(await actionsAt(document, finding.range)), /^Fix every headroom in this file$/);
      assert.equal(document.getText(), expected);
    },
  },
  {
    name: 'fix on save writes what fix writes',
    run: async () => {
      const document = await openManifest('portfolio', 'crops.yaml');
      const before = document.getText();
      await findingOf(document, 'joint-cut').catch(() => undefined);
      const settings = vscode.workspace.getConfiguration('editor', document);
      await settings.update('codeActionsOnSave', { 'source.fixAll.selvedge': 'explicit' }, false);
      const edit = new vscode.WorkspaceEdit();
      edit.insert(document.uri, new vscode.Position(0, 0), '# looked at again\n');
      await vscode.workspace.applyEdit(edit);
      const unsaved = document.getText();
      await document.save();
      await settings.update('codeActionsOnSave', undefined, false);
      const saved = readFileSync(document.uri.fsPath, 'utf8');
      assert.notEqual(saved, unsaved);
      assert.notEqual(saved, before);
      assert.equal(textAfterFix(document), saved);
    },
  },
  {
    name: 'approving a frame writes final, and can be taken back',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const before = document.getText();
      const finding = await findingOf(document, 'face-cut');
      await choose(await actionsAt(document, finding.range), /^Approve boardwalk-01\.jpg#2 as it is$/);
      assert.match(document.getText(), /aspect: "2:3"\n {4}final: true\n/);
      await until('its findings as infos', () =>
        findingsOf(document).some(
          (found) => ruleOf(found) === 'face-cut' && found.severity === vscode.DiagnosticSeverity.Information,
        ),
      );
      await choose(await actionsAt(document, finding.range), /^Take back the approval/);
      assert.match(document.getText(), /final: false/);
      await undo();
      await undo();
      assert.equal(document.getText(), before);
    },
  },
  {
    name: 'allowing a finding puts the cursor into the reason, and the finding goes',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const before = document.getText();
      const finding = await findingOf(document, 'headroom');
      await choose(await actionsAt(document, finding.range), /^Allow headroom here/);
      const editor = vscode.window.activeTextEditor!;
      assert.equal(document.getText(editor.selection), 'say why');
      await vscode.commands.executeCommand('type', { text: 'sky for the title' });
      assert.match(document.getText(), /headroom: "?sky for the title/);
      const isStill = ({ message, range }: vscode.Diagnostic): boolean =>
        message === finding.message && range.isEqual(finding.range);
      await until('the finding to go', () => !findingsOf(document).some(isStill));
      // What was typed goes word by word, then the allowance in one step.
      for (let step = 0; step < 8 && document.getText() !== before; step++) await undo();
      assert.equal(document.getText(), before);
    },
  },
  {
    name: 'one length closer and wider along the ladder',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const before = document.getText();
      const at = document.positionAt(before.indexOf('boardwalk-06.jpg'));
      const range = new vscode.Range(at, at);
      await choose(await actionsAt(document, range), /^One length closer: /);
      const closer = document.getText();
      assert.notEqual(closer, before);
      const wider = (await actionsAt(document, range)).filter(({ title }) => title.startsWith('One length wider: '));
      assert.equal(wider.length, 1);
      await undo();
      assert.equal(document.getText(), before);
    },
  },
  {
    name: 'a misspelt key is written as it was meant',
    run: async () => {
      const document = await openManifest('troubled', 'crops.yaml');
      const finding = await until('the misspelt key', () =>
        findingsOf(document).find(({ message }) => /compos/.test(message)),
      );
      await choose(await actionsAt(document, finding.range), /^Write compose$/);
      assert.match(document.getText(), /^compose: free/m);
    },
  },
  {
    name: 'measuring from the quick fix writes the people file and the findings follow',
    run: async () => {
      const document = await openManifest('troubled', 'crops.yaml');
      const finding = await findingOf(document, 'not-measured');
      await choose(await actionsAt(document, finding.range), /^Measure the people of this session$/);
      await until('no not-measured', () => !findingsOf(document).some((found) => ruleOf(found) === 'not-measured'));
      const people = readFileSync(workspacePath('troubled', 'crops.people.jsonl'), 'utf8');
      assert.match(people, /"photo":"studio-01\.jpg"/);
      await until('no stale-measure', () => !findingsOf(document).some((found) => ruleOf(found) === 'stale-measure'));
    },
  },
];
