import assert from 'node:assert/strict';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import * as vscode from 'vscode';
import { SessionList, type OpenSessions } from '../../../src/editor/session-list.ts';
import { SessionTree, type SessionNode } from '../../../src/editor/session-tree.ts';
import { generatedSession } from '../../scenes/session.ts';
import { until, workspacePath, type HostTest } from './testing.ts';

/** No manifest is open: all is read from the disk. */
const CLOSED: OpenSessions = {
  opened: () => undefined,
  onDidCheck: new vscode.EventEmitter<never>().event,
  onDidClose: new vscode.EventEmitter<vscode.Uri>().event,
};

interface Shown {
  readonly tree: SessionTree;
  readonly list: SessionList;
}

async function withTree(use: (shown: Shown) => Promise<void>): Promise<void> {
  const log = vscode.window.createOutputChannel('Test of the tree', { log: true });
  const list = new SessionList(CLOSED, log);
  const tree = new SessionTree(list);
  list.isSeen = true;
  try {
    await use({ tree, list });
  } finally {
    tree.dispose();
    list.dispose();
    log.dispose();
  }
}

/** The line of the session in a folder, once its manifest was read. */
async function sessionIn({ tree, list }: Shown, folder: string): Promise<{ node: SessionNode; item: vscode.TreeItem }> {
  return until(`the session in ${folder}`, async () => {
    const nodes = await tree.getChildren();
    const node = nodes.find(({ uri }) => dirname(uri.fsPath) === workspacePath(folder));
    return node && list.summaryOf(node.uri) && { node, item: tree.getTreeItem(node) };
  });
}

/** A session of its own, taken away again. */
async function withSession(text: string, use: (folder: string) => Promise<void>): Promise<void> {
  const folder = 'tree-test';
  mkdirSync(workspacePath(folder), { recursive: true });
  try {
    writeFileSync(workspacePath(folder, 'crops.yaml'), text);
    await use(folder);
  } finally {
    rmSync(workspacePath(folder), { recursive: true, force: true });
  }
}

export const sessions: HostTest[] = [
  {
    name: 'the tree has each session of the workspace, its frames and what is found, without opening any',
    run: async () => {
      const before = vscode.workspace.textDocuments.length;
      await withTree(async (shown) => {
        const { node, item } = await sessionIn(shown, 'harbour');
        assert.equal(item.label, 'Harbour and studio');
        assert.match(String(item.description), /^\d+ frames, \d+ errors?, \d+ warnings?.* · harbour\/crops\.yaml$/);
        const frames = await shown.tree.getChildren(node);
        assert.equal(frames.length, Number.parseInt(String(item.description), 10));
        const labels = frames.map((frame) => shown.tree.getTreeItem(frame));
        assert.ok(labels.some(({ label }) => label === 'boardwalk-01.jpg#2'));
        const hurt = labels.find(({ label }) => label === 'boardwalk-01.jpg#2')!;
        assert.match(String(hurt.description), /error/);
        assert.equal((hurt.iconPath as vscode.ThemeIcon).id, 'error');
        const approved = labels.find(({ label }) => label === 'boardwalk-08.jpg')!;
        assert.match(String(approved.description), /^approved/);
        await sessionIn(shown, 'portfolio');
      });
      assert.equal(vscode.workspace.textDocuments.length, before);
    },
  },
  {
    name: 'a line of the tree leads to the frame’s line in the text',
    run: async () => {
      await vscode.extensions.getExtension('selvedge.selvedge')!.activate();
      await withTree(async (shown) => {
        const { node } = await sessionIn(shown, 'harbour');
        const frames = await shown.tree.getChildren(node);
        const item = frames
          .map((frame) => shown.tree.getTreeItem(frame))
          .find(({ label }) => label === 'studio-11.jpg');
        const { command, arguments: given } = item!.command!;
        await vscode.commands.executeCommand(command, ...(given as unknown[]));
        const editor = vscode.window.activeTextEditor!;
        assert.match(editor.document.lineAt(editor.selection.active.line).text, /photo: studio-11\.jpg/);
      });
    },
  },
  {
    name: 'a broken manifest says so, and what can be read of it is there',
    run: async () => {
      await withSession('selvedge: 1\nframes:\n  - photo: [\n', async (folder) => {
        await withTree(async (shown) => {
          const { item } = await sessionIn(shown, folder);
          assert.match(String(item.description), /cannot be read|in trouble/);
          assert.equal((item.iconPath as vscode.ThemeIcon).id, 'error');
          assert.match(item.tooltip as string, /^tree-test\/crops\.yaml: .+/);
        });
      });
    },
  },
  {
    name: 'hostile and huge names are plain, short text in the tree',
    run: async () => {
      const name = `"<img src=x>$(zap)[a](command:b)\\u202e\\u0007${'long '.repeat(5000)}"`;
      const frame = '"<b>$(zap)</b>\\u202e.jpg"';
      await withSession(`selvedge: 1\nsession: ${name}\nframes:\n  - photo: ${frame}\n`, async (folder) => {
        await withTree(async (shown) => {
          const { node, item } = await sessionIn(shown, folder);
          const items = [item, ...(await shown.tree.getChildren(node)).map((each) => shown.tree.getTreeItem(each))];
          assert.equal(items.length, 2);
          for (const { label, description, tooltip } of items) {
            for (const text of [label, description, tooltip]) {
              // Text, and no Markdown: only a MarkdownString would be read as such.
              assert.equal(typeof text, 'string');
              assert.ok((text as string).length < 500);
              assert.doesNotMatch(text as string, /[\u0000-\u001f\u202e]/);
            }
          }
        });
      });
    },
  },
  {
    name: 'the tree follows manifests that come, change and go',
    run: async () => {
      await withTree(async (shown) => {
        await sessionIn(shown, 'harbour');
        await withSession('selvedge: 1\nsession: First\nframes:\n  - photo: a.jpg\n', async (folder) => {
          assert.equal((await sessionIn(shown, folder)).item.label, 'First');
          writeFileSync(workspacePath(folder, 'crops.yaml'), 'selvedge: 1\nsession: Second\nframes: []\n');
          await until('the new title', async () => (await sessionIn(shown, folder)).item.label === 'Second');
        });
        await until('its end', async () =>
          (await shown.tree.getChildren()).every(({ uri }) => !uri.path.includes('tree-test')),
        );
      });
    },
  },
  {
    name: 'two thousand frames come in stretches',
    run: async () => {
      const { manifest } = generatedSession(2000);
      await withSession(manifest, async (folder) => {
        await withTree(async (shown) => {
          const { node } = await sessionIn(shown, folder);
          const stretches = await shown.tree.getChildren(node);
          const frames = await Promise.all(stretches.map((stretch) => shown.tree.getChildren(stretch)));
          assert.ok(stretches.length < 10 && frames.every(({ length }) => length <= 400));
          assert.equal(frames.flat().length, 2000);
        });
      });
    },
  },
];
