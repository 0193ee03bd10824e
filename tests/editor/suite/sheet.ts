import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { findFixes, editsOf } from '../../../src/editor/sheet-review.ts';
import { workspaceEdit } from '../../../src/editor/places.ts';
import { SentFrames } from '../../../src/editor/sheet-sent.ts';
import { OpenManifest } from '../../../src/editor/open-manifest.ts';
import { textAfterFix } from './command-line.ts';
import { openManifest, replace, until, type HostTest } from './testing.ts';

const NEVER = new AbortController().signal;

/** The sheet's own view of a manifest, on the real document. */
async function withManifest(
  file: readonly string[],
  use: (manifest: OpenManifest, document: vscode.TextDocument) => Promise<void>,
): Promise<void> {
  const document = await openManifest(...file);
  const log = vscode.window.createOutputChannel('Test of the sheet', { log: true });
  const manifest = await OpenManifest.open(document, {
    log,
    lookAtPhotos: undefined,
    photosFolder: undefined,
    warn: () => undefined,
  });
  try {
    await use(manifest, document);
  } finally {
    manifest.dispose();
    log.dispose();
  }
}

export const sheet: HostTest[] = [
  {
    name: 'what the sheet writes is what the command line’s fix writes, in one step back',
    run: async () => {
      await withManifest(['harbour', 'crops.yaml'], async (manifest, document) => {
        const before = document.getText();
        const names = new Set(manifest.session.manifest.frames.map(({ name }) => name));
        const pending = await findFixes(manifest, { names, rule: undefined }, NEVER);
        const moves = pending.review.rows.map(({ moved }) => moved);
        assert.deepEqual(
          moves,
          [...moves].sort((first, second) => second - first),
        );
        assert.ok(await vscode.workspace.applyEdit(workspaceEdit(document, editsOf(pending, []))));
        assert.equal(document.getText(), textAfterFix(document));
        await vscode.commands.executeCommand('undo');
        assert.equal(document.getText(), before);
      });
    },
  },
  {
    name: 'a frame that is left out of the review keeps its crop, and only selected frames are in it',
    run: async () => {
      await withManifest(['harbour', 'crops.yaml'], async (manifest) => {
        const names = new Set(['boardwalk-01.jpg#2', 'boardwalk-06.jpg', 'boardwalk-08.jpg']);
        const pending = await findFixes(manifest, { names, rule: undefined }, NEVER);
        assert.deepEqual(new Set(pending.review.rows.map(({ name }) => name)), new Set(['boardwalk-01.jpg#2', 'boardwalk-06.jpg'])); // prettier-ignore
        assert.match(pending.review.notice ?? '', /Approved/);
        const [first, second] = pending.fixed;
        const edits = editsOf(pending, [first!.frame.index]);
        assert.ok(edits.length > 0);
        for (const { start, end } of edits) {
          assert.ok(start >= second!.frame.range.start && end <= second!.frame.range.end);
        }
      });
    },
  },
  {
    name: 'the sheet is sent only what changed, and hostile names as plain text',
    run: async () => {
      await withManifest(['harbour', 'crops.yaml'], async (manifest, document) => {
        const sent = new SentFrames();
        const nobody = (): undefined => undefined;
        const first = sent.messageFor(await manifest.check(), nobody);
        assert.equal(first.kind, 'session');
        assert.deepEqual(sent.messageFor(await manifest.check(), nobody), { kind: 'changed', frames: [] });
        await replace(document, 'x: 0.03, y: 0, w: 0.97', 'x: 0.02, y: 0, w: 0.97');
        const changed = sent.messageFor(await manifest.check(), nobody);
        assert.ok(changed.kind === 'changed' && changed.frames.length === 1);
        assert.equal(changed.frames[0]!.name, 'boardwalk-06.jpg');
        const revision = sent.revision;
        await replace(document, 'photo: boardwalk-06.jpg', 'photo: "<script>\\u202e\\u0007.jpg"');
        const renamed = sent.messageFor(await manifest.check(), nobody);
        assert.equal(renamed.kind, 'session');
        assert.ok(sent.revision > revision);
        assert.doesNotMatch(JSON.stringify(renamed), /\u202e|\\u0007/);
        assert.deepEqual(sent.namesOf([99_999]), new Set());
      });
    },
  },
  {
    name: 'the command opens one sheet for each session',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const tabs = (): vscode.Tab[] =>
        vscode.window.tabGroups.all.flatMap((group) => group.tabs).filter(({ label }) => label.startsWith('Contact Sheet')); // prettier-ignore
      await vscode.commands.executeCommand('selvedge.contactSheet', document.uri);
      await vscode.commands.executeCommand('selvedge.contactSheet', document.uri);
      assert.deepEqual(
        tabs().map(({ label }) => label),
        ['Contact Sheet: harbour'],
      );
      await vscode.window.tabGroups.close(tabs());
      await until('its end', () => tabs().length === 0);
    },
  },
];
