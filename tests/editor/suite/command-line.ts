import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { EDITOR_REMEDIES } from '../../../src/editor/remedies.ts';
import { COMMAND_LINE_REMEDIES } from '../../../src/session/remedies.ts';

const extension = (): vscode.Extension<unknown> => vscode.extensions.getExtension('selvedge.selvedge')!;

/** Runs the built command line, as a user would beside the editor. */
export function selvedge(...given: string[]): string {
  const program = join(extension().extensionPath, 'dist', 'selvedge.js');
  return spawnSync('node', [program, ...given], { encoding: 'utf8', maxBuffer: 1 << 26 }).stdout;
}

/** What the command line makes of a manifest: the text of a copy after `fix`. */
export function textAfterFix(document: vscode.TextDocument, ...options: string[]): string {
  const folder = mkdtempSync(join(tmpdir(), 'selvedge-fix-'));
  const home = join(document.uri.fsPath, '..');
  copyFileSync(join(home, 'crops.people.jsonl'), join(folder, 'crops.people.jsonl'));
  const path = join(folder, 'crops.yaml');
  writeFileSync(path, document.getText());
  const photos = /^photos: (.+)$/m.exec(document.getText())?.[1] ?? '.';
  selvedge('fix', path, '--photos', join(home, photos), ...options);
  return readFileSync(path, 'utf8');
}

interface JsonFinding {
  readonly line: number;
  readonly column: number;
  readonly rule: string;
  readonly severity: string;
  readonly message: string;
  readonly allowed?: string;
  readonly fixes?: readonly {
    readonly title: string;
    readonly crop: Readonly<Record<'x' | 'y' | 'w' | 'h', number>>;
  }[];
}

/** Every finding of `check --format json` that no allow covers; what is to be done is told in the editor's words. */
export function findingsByCommandLine(path: string): JsonFinding[] {
  const { manifests } = JSON.parse(selvedge('check', '--format', 'json', path)) as {
    manifests: { findings: JsonFinding[]; frames: { findings: JsonFinding[] }[] }[];
  };
  return manifests
    .flatMap(({ findings, frames }) => [...findings, ...frames.flatMap((frame) => frame.findings)])
    .filter(({ allowed }) => allowed === undefined)
    .map((finding) => ({
      ...finding,
      message: finding.message.replace(COMMAND_LINE_REMEDIES.measure(path), EDITOR_REMEDIES.measure(path)),
    }));
}
