import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import * as vscode from 'vscode';
import { findingsByCommandLine } from './command-line.ts';
import { faults } from './faults.ts';
import { reviewing } from './reviewing.ts';
import { findingsOf, openManifest, runAll, until, workspacePath, type HostTest } from './testing.ts';

/** Several folders in one window: `harbour`, and `clients` with a session in a folder of its own. */
const folders: HostTest[] = [
  {
    name: 'with several folders open each session has its own findings, wherever its manifest stands',
    run: async () => {
      assert.equal(vscode.workspace.workspaceFolders?.length, 2);
      for (const parts of [['crops.yaml'], ['..', 'clients', 'june', 'crops.yaml']]) {
        const expected = findingsByCommandLine(workspacePath(...parts)).map(
          ({ line, message }) => `${line} ${message}`,
        );
        assert.ok(expected.length > 0);
        const document = await openManifest(...parts);
        const found = (): string[] => findingsOf(document).map(({ range, message }) => `${range.start.line + 1} ${message}`); // prettier-ignore
        await until('its findings', () => found().sort().join() === expected.sort().join()).catch(() => undefined);
        assert.deepEqual(found().sort(), expected.sort());
      }
    },
  },
  {
    name: 'a setting of one folder holds for its sessions alone',
    run: async () => {
      const hintsOf = async (...parts: string[]): Promise<number> => {
        const document = await openManifest(...parts);
        const whole = new vscode.Range(0, 0, document.lineCount, 0);
        const hints = await vscode.commands.executeCommand<unknown[]>('vscode.executeInlayHintProvider', document.uri, whole); // prettier-ignore
        return hints.length;
      };
      assert.ok((await hintsOf('crops.yaml')) > 0);
      assert.equal(await hintsOf('..', 'clients', 'june', 'crops.yaml'), 0);
    },
  },
];

/** Changes the session for good, so it comes last. */
const review: HostTest[] = [
  {
    name: 'after a fix the source-control diff of the manifest shows other numbers and nothing else',
    run: async () => {
      const repository = await until('the repository', repositoryOfSession);
      const document = await openManifest('crops.yaml');
      const whole = new vscode.Range(0, 0, document.lineCount, 0);
      const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        document.uri,
        whole,
        'source.fixAll.selvedge',
        1,
      );
      const [fix] = actions;
      assert.ok(fix?.edit, actions.map(({ title }) => title).join());
      assert.ok(await vscode.workspace.applyEdit(fix.edit));
      assert.ok(await document.save());
      const diff = await until('a diff', async () => (await repository.diffWithHEAD(document.uri.fsPath)) || undefined);
      const lines = (sign: string): string[] =>
        diff.split('\n').filter((line) => line.startsWith(sign) && !line.startsWith(sign.repeat(3)));
      assert.ok(lines('-').length > 2);
      // A frame that was kept whole has no crop to change: it gets one.
      assert.ok(lines('+').length >= lines('-').length);
      for (const line of [...lines('+'), ...lines('-')]) {
        assert.match(line, /^[+-] {4}crop: \{ x: [\d.]+, y: [\d.]+, w: [\d.]+, h: [\d.]+ \}$/);
      }
      const ours = execFileSync('git', ['diff', '--name-only'], { cwd: workspacePath(), encoding: 'utf8' });
      assert.equal(ours.trim(), 'crops.yaml');
    },
  },
];

interface Repository {
  diffWithHEAD(path: string): Promise<string>;
}

interface Git {
  getAPI(version: 1): { getRepository(uri: vscode.Uri): Repository | null };
}

async function repositoryOfSession(): Promise<Repository | undefined> {
  const git = vscode.extensions.getExtension<Git>('vscode.git');
  if (!git) throw new Error('The editor has no source control.');
  const source = await git.activate();
  return source.getAPI(1).getRepository(vscode.Uri.file(workspacePath('crops.yaml'))) ?? undefined;
}

export async function run(): Promise<void> {
  await runAll([...folders, ...faults, ...reviewing, ...review]);
}
