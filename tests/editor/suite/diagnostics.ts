import assert from 'node:assert/strict';
import { copyFileSync, existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { generatedSession } from '../../scenes/session.ts';
import { findingsByCommandLine } from './command-line.ts';
import { findingsOf, openManifest, quiet, replace, ruleOf, until, workspacePath, type HostTest } from './testing.ts';

/** `line:column rule severity message` of everything that the command line finds in a manifest as it is on disk. */
function byCommandLine(path: string): string[] {
  return findingsByCommandLine(path)
    .map(({ line, column, rule, severity, message }) => `${line}:${column} ${rule} ${severity} ${message}`)
    .sort();
}

function byEditor(document: vscode.TextDocument): string[] {
  return findingsOf(document)
    .map((finding) => {
      const { line, character } = finding.range.start;
      const severity = ['error', 'warning', 'info'][finding.severity]!;
      return `${line + 1}:${character + 1} ${ruleOf(finding)} ${severity} ${finding.message}`;
    })
    .sort();
}

export const diagnostics: HostTest[] = [
  {
    name: 'the editor finds what the command line finds, at the same places',
    run: async () => {
      for (const session of ['harbour', 'portfolio', 'troubled']) {
        const path = workspacePath(session, 'crops.yaml');
        const expected = byCommandLine(path);
        assert.ok(expected.length > 2, `${session} has findings`);
        const document = await openManifest(session, 'crops.yaml');
        const same = (): boolean => byEditor(document).join('\n') === expected.join('\n');
        await until(`the findings of ${session}`, same).catch(() => undefined);
        assert.deepEqual(byEditor(document), expected);
      }
    },
  },
  {
    name: 'a large session tells what the frames have before what outputs have, and takes nothing back',
    run: async () => {
      const folder = workspacePath('large session');
      mkdirSync(folder);
      const { manifest, people } = generatedSession(200);
      writeFileSync(join(folder, 'crops.yaml'), manifest);
      writeFileSync(join(folder, 'crops.people.jsonl'), people);
      const uri = vscode.Uri.file(join(folder, 'crops.yaml'));
      const told: ReadonlySet<string>[] = [];
      const listener = vscode.languages.onDidChangeDiagnostics(({ uris }) => {
        if (!uris.some((each) => each.toString() === uri.toString())) return;
        told.push(
          new Set(vscode.languages.getDiagnostics(uri).map(({ message, range }) => `${range.start.line} ${message}`)),
        );
      });
      await vscode.workspace.openTextDocument(uri);
      const ofOutputs = (each: ReadonlySet<string>): boolean => [...each].some((text) => text.includes('Output album'));
      await until('findings of outputs', () => told.some(ofOutputs));
      await quiet();
      listener.dispose();
      const first = told.find((each) => each.size > 0)!;
      assert.ok(!ofOutputs(first), 'the frames come first');
      for (const [index, each] of told.slice(1).entries()) {
        const gone = [...told[index]!].filter((text) => !each.has(text));
        assert.deepEqual(gone, []);
      }
      rmSync(folder, { recursive: true });
    },
  },
  {
    name: 'each finding links to its rule’s page, and the page is there',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      for (const { code } of findingsOf(document)) {
        assert.ok(typeof code === 'object' && existsSync(code.target.fsPath), JSON.stringify(code));
      }
    },
  },
  {
    name: 'findings follow the text while it is edited, and come back on undo',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      await until('an aspect finding', () => findingsOf(document).some((finding) => ruleOf(finding) === 'aspect'));
      const before = byEditor(document);
      await replace(document, 'rules:\n', 'rules:\n  aspect: off\n');
      await until('no aspect finding', () => !findingsOf(document).some((finding) => ruleOf(finding) === 'aspect'));
      await vscode.commands.executeCommand('undo');
      await until('the findings of before', () => byEditor(document).join() === before.join());
    },
  },
  {
    name: 'a finding names the place where the shape was asked for',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const finding = await until('aspect', () => findingsOf(document).find((found) => ruleOf(found) === 'aspect'));
      const [related] = finding.relatedInformation ?? [];
      assert.ok(related, 'a related place');
      assert.match(document.getText(related.location.range), /1:1/);
    },
  },
  {
    name: 'photos and people that come and go on the disk change the findings',
    run: async () => {
      const document = await openManifest('troubled', 'crops.yaml');
      const rules = (): string[] => findingsOf(document).map(ruleOf);
      await until('photo-missing', () => rules().includes('photo-missing'));
      const photo = workspacePath('troubled', 'studio-02.jpg');
      copyFileSync(workspacePath('troubled', 'studio-01.jpg'), photo);
      await until('no photo-missing', () => !rules().includes('photo-missing'));
      rmSync(photo);
      await until('photo-missing again', () => rules().includes('photo-missing'));
      const people = workspacePath('troubled', 'crops.people.jsonl');
      const kept = workspacePath('kept.jsonl');
      copyFileSync(people, kept);
      rmSync(people);
      await until('no stale-measure', () => !rules().includes('stale-measure'));
      copyFileSync(kept, people);
      await until('stale-measure again', () => rules().includes('stale-measure'));
    },
  },
  {
    name: 'markup, command links and control characters of a manifest are shown as text',
    run: async () => {
      const document = await openManifest('troubled', 'crops.yaml');
      const hostile = '<img src=x onerror=alert(1)>[x](command:workbench.action.quit)\u202e';
      await replace(document, 'studio-02.jpg', JSON.stringify(hostile).replace('\u202e', '\\u202e'));
      const finding = await until('its finding', () =>
        findingsOf(document).find(({ message }) => message.includes('<img')),
      );
      assert.ok(finding.message.includes('[x](command:workbench.action.quit)'));
      assert.ok(!finding.message.includes('\u202e'), 'nothing turns the direction of writing');
    },
  },
  {
    name: 'the editor’s process never loads the image library',
    run: async () => {
      await openManifest('harbour', 'crops.yaml');
      const { sharedObjects } = process.report.getReport() as { sharedObjects: string[] };
      assert.deepEqual(
        sharedObjects.filter((path) => /sharp|vips|onnx/i.test(path)),
        [],
      );
    },
  },
];
