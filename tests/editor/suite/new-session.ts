import assert from 'node:assert/strict';
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { selvedge } from './command-line.ts';
import { until, workspacePath, type HostTest } from './testing.ts';

/** A folder of two photos and of what is no photo, taken away again. */
async function withPhotos(use: (folder: string) => Promise<void>): Promise<void> {
  const folder = workspacePath('fresh');
  mkdirSync(join(folder, 'second card'), { recursive: true });
  try {
    copyFileSync(workspacePath('harbour', 'proofs', 'boardwalk-06.jpg'), join(folder, 'boardwalk-06.jpg'));
    copyFileSync(workspacePath('harbour', 'proofs', 'boardwalk-04.jpg'), join(folder, 'second card', 'no: 4.jpg'));
    writeFileSync(join(folder, 'notes.txt'), 'call the client');
    await use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const begin = (folder: string): Thenable<unknown> =>
  vscode.commands.executeCommand('selvedge.newSession', vscode.Uri.file(folder));

export const newSession: HostTest[] = [
  {
    name: 'a new session has the text that init writes, and is opened',
    run: async () => {
      await withPhotos(async (folder) => {
        selvedge('init', folder);
        const path = join(folder, 'crops.yaml');
        const expected = readFileSync(path, 'utf8');
        assert.match(expected, /no: 4\.jpg/);
        rmSync(path);
        await begin(folder);
        const { document } = await until('the manifest', () => vscode.window.activeTextEditor);
        assert.equal(document.uri.fsPath, path);
        assert.equal(document.getText(), expected);
      });
    },
  },
  {
    name: 'a new session is never written over a manifest that is there, nor into a folder without photos',
    run: async () => {
      await withPhotos(async (folder) => {
        writeFileSync(join(folder, 'crops.yaml'), 'mine');
        await begin(folder);
        assert.equal(readFileSync(join(folder, 'crops.yaml'), 'utf8'), 'mine');
        mkdirSync(join(folder, 'empty'));
        await begin(join(folder, 'empty'));
        assert.ok(!existsSync(join(folder, 'empty', 'crops.yaml')));
      });
    },
  },
];
