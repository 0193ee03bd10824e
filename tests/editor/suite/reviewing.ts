import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { listen } from './messages.ts';
import { openManifest, replace, until, workspacePath, type HostTest } from './testing.ts';

const COMMAND = 'selvedge.review';

/** Pages of reviews that are open, by their titles. */
function pages(): string[] {
  const tabs = vscode.window.tabGroups.all.flatMap((group) => group.tabs);
  return tabs
    .filter(({ input }) => input instanceof vscode.TabInputWebview && input.viewType.endsWith('selvedge.review'))
    .map(({ label }) => label);
}

async function closePages(): Promise<void> {
  const tabs = vscode.window.tabGroups.all.flatMap((group) => group.tabs);
  await vscode.window.tabGroups.close(tabs.filter(({ input }) => input instanceof vscode.TabInputWebview));
}

/** What the command says, which is told in a box as well. */
async function saidBy(document: vscode.TextDocument, revision: string): Promise<string> {
  const ear = listen();
  try {
    await vscode.commands.executeCommand(COMMAND, document.uri, revision);
    return ear.heard().join('\n');
  } finally {
    ear.stop();
  }
}

/** Comparing with an earlier revision, where `harbour` is under version control and `clients` is not. */
export const reviewing: HostTest[] = [
  {
    name: 'a session is compared with a commit: one page for each session, and nothing is written',
    run: async () => {
      const document = await openManifest('crops.yaml');
      await replace(document, 'note: for the square wall', 'note: for the round wall');
      assert.equal(await saidBy(document, 'HEAD'), '');
      await until('the page', () => pages().join() === 'Crops Since HEAD');
      const commit = execFileSync('git', ['rev-parse', 'HEAD'], { cwd: workspacePath(), encoding: 'utf8' }).trim();
      assert.equal(await saidBy(document, commit), '');
      await until('the other title', () => pages().join() === `Crops Since ${commit.slice(0, 10)}`);
      assert.equal(execFileSync('git', ['status', '--porcelain'], { cwd: workspacePath(), encoding: 'utf8' }), '');
      await closePages();
      assert.deepEqual(pages(), []);
      await vscode.window.showTextDocument(document);
    },
  },
  {
    name: 'a revision that is none, or none of this repository, is told, and no page opens',
    run: async () => {
      const document = await openManifest('crops.yaml');
      assert.match(await saidBy(document, 'no-such-branch'), /There is no commit "no-such-branch"/);
      assert.match(await saidBy(document, '--output=/tmp/x'), /is no revision/);
      assert.deepEqual(pages(), []);
    },
  },
  {
    name: 'a session in no repository is told so before anything is asked',
    run: async () => {
      const document = await openManifest('..', 'clients', 'june', 'crops.yaml');
      const ear = listen();
      await vscode.commands.executeCommand(COMMAND, document.uri);
      ear.stop();
      assert.match(ear.heard().join('\n'), /is in no git repository/);
      assert.deepEqual(pages(), []);
    },
  },
  {
    name: 'a repository that the editor has not opened is one all the same',
    run: async () => {
      const folder = workspacePath('..', 'clients', 'june');
      const git = (...given: string[]): void => {
        execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.org', ...given], { cwd: folder });
      };
      const hidden = join(folder, '.git');
      try {
        mkdirSync(folder, { recursive: true });
        git('init', '--quiet');
        git('add', 'crops.yaml');
        git('commit', '--quiet', '--message', 'As it came');
        const document = await openManifest('..', 'clients', 'june', 'crops.yaml');
        assert.equal(await saidBy(document, 'HEAD'), '');
        await until('the page', () => pages().length === 1);
        await closePages();
      } finally {
        rmSync(hidden, { recursive: true, force: true });
      }
    },
  },
  {
    name: 'with the editor’s git switched off that is told, with what to do',
    run: async () => {
      const document = await openManifest('crops.yaml');
      const settings = vscode.workspace.getConfiguration('git');
      await settings.update('enabled', false, vscode.ConfigurationTarget.Workspace);
      try {
        assert.match(await saidBy(document, 'HEAD'), /Git is switched off in this editor.*git\.enabled/);
        assert.deepEqual(pages(), []);
      } finally {
        await settings.update('enabled', undefined, vscode.ConfigurationTarget.Workspace);
      }
    },
  },
];
