import assert from 'node:assert/strict';
import { copyFileSync, cpSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { smallDisk, whyNoSmallDisk } from '../../faults/support/small-disk.ts';
import { listen } from './messages.ts';
import { photoRooms } from './photo-rooms.ts';
import { findingsOf, openManifest, quiet, replace, ruleOf, until, workspacePath, type HostTest } from './testing.ts';

const rulesOf = (document: vscode.TextDocument): string[] => findingsOf(document).map(ruleOf);

/** A copy of the finished pictures beside the opened session, that a test may spoil. */
function copyOfPortfolio(name: string): string {
  const folder = workspacePath('..', 'clients', name);
  cpSync(workspacePath('..', 'clients', 'june'), folder, { recursive: true });
  return folder;
}

async function open(path: string): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.file(path));
  await vscode.window.showTextDocument(document);
  await until('findings', () => findingsOf(document).length > 0);
  await quiet();
  return document;
}

/** What happens to files and processes while a session is open: the editor stays usable, and nothing typed is lost. */
export const faults: HostTest[] = [
  {
    name: 'a folder that is renamed while its session is open: what was typed stays, and it goes on when the folder is back',
    run: async () => {
      const folder = copyOfPortfolio('renamed');
      const document = await open(join(folder, 'crops.yaml'));
      const before = rulesOf(document).join();
      renameSync(folder, `${folder}-elsewhere`);
      await until('photo-missing', () => rulesOf(document).includes('photo-missing'));
      await replace(document, 'session: portfolio', 'session: typed meanwhile');
      await quiet();
      assert.ok(document.isDirty && document.getText().includes('typed meanwhile'));
      renameSync(`${folder}-elsewhere`, folder);
      await until('the findings of before', () => rulesOf(document).join() === before);
      assert.ok(await document.save());
      assert.ok(readFileSync(document.uri.fsPath, 'utf8').includes('typed meanwhile'));
    },
  },
  {
    name: 'a photo that is deleted while its frame is looked at is told, and the hover still has its table',
    run: async () => {
      const folder = copyOfPortfolio('deleted');
      const document = await open(join(folder, 'crops.yaml'));
      rmSync(join(folder, 'green-dress.jpg'));
      await until('photo-missing', () =>
        findingsOf(document).some(
          (found) => ruleOf(found) === 'photo-missing' && /green-dress\.jpg/.test(found.message),
        ),
      );
      const at = document.positionAt(document.getText().indexOf('green-dress.jpg'));
      const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
        'vscode.executeHoverProvider',
        document.uri,
        at,
      );
      const text = hovers
        .flatMap(({ contents }) => contents.map((each) => (each as vscode.MarkdownString).value))
        .join();
      assert.match(text, /photo&#45;missing/);
      assert.ok(!text.includes('data:image'), 'no picture of a photo that is gone');
    },
  },
  {
    name: 'a manifest that another program writes is read again; what was typed and not saved is kept',
    run: async () => {
      const folder = copyOfPortfolio('outside');
      const path = join(folder, 'crops.yaml');
      const document = await open(path);
      const text = readFileSync(path, 'utf8');
      writeFileSync(path, text.replace('selvedge: 1', 'selvedge: 1\nrules: { no-such-rule: off }'));
      await until('the finding of the new text', () => findingsOf(document).some(({ message }) => message.includes('no-such-rule'))); // prettier-ignore
      await replace(document, 'session: portfolio', 'session: typed meanwhile');
      writeFileSync(path, text);
      await quiet();
      assert.ok(document.getText().includes('typed meanwhile'), 'the editor keeps what was typed');
      assert.ok(
        findingsOf(document).some(({ message }) => message.includes('no-such-rule')),
        'it is what is checked',
      );
      assert.equal(readFileSync(path, 'utf8'), text, 'and the file is what the other program wrote');
    },
  },
  {
    name: 'two editors on one file show the same findings, and an edit in one is an edit of both',
    run: async () => {
      const document = await openManifest('crops.yaml');
      const beside = await vscode.window.showTextDocument(document, vscode.ViewColumn.Beside);
      const before = rulesOf(document).length;
      assert.equal(vscode.window.visibleTextEditors.filter((editor) => editor.document === document).length, 2);
      const at = document.positionAt(document.getText().indexOf('rules:\n') + 'rules:\n'.length);
      assert.ok(await beside.edit((edit) => { edit.insert(at, '  aspect: off\n'); })); // prettier-ignore
      await until('fewer findings', () => rulesOf(document).length < before && !rulesOf(document).includes('aspect'));
      await vscode.commands.executeCommand('undo');
      await until('the findings of before', () => rulesOf(document).length === before);
      await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
      assert.equal(rulesOf(document).length, before, 'they stay while one editor is left');
    },
  },
  {
    name: 'a people file that is broken is told with its name and what would be right; the text stays checked',
    run: async () => {
      const folder = copyOfPortfolio('broken');
      const people = join(folder, 'crops.people.jsonl');
      writeFileSync(people, Buffer.from([0xff, 0xfe, 0x00, 0xc3, 0x28]));
      const messages = listen();
      const document = await open(join(folder, 'crops.yaml'));
      const message = await until('a message', () => messages.heard().find((each) => each.includes(people)));
      messages.stop();
      assert.match(message, /is not UTF-8 text\. Save it as UTF-8\./);
      assert.ok(rulesOf(document).includes('not-measured'), rulesOf(document).join());
    },
  },
  {
    name: 'the process that looks at photos is killed while it measures: that is told, and it starts again',
    run: async () => {
      const folder = copyOfPortfolio('killed');
      rmSync(join(folder, 'crops.people.jsonl'));
      const document = await open(join(folder, 'crops.yaml'));
      const messages = listen();
      const measuring = vscode.commands.executeCommand('selvedge.measure', document.uri);
      const [old] = await until('the photo room', () => (photoRooms().length === 1 ? photoRooms() : undefined));
      process.kill(old!, 'SIGKILL');
      await measuring;
      assert.match(
        messages.heard().join('\n'),
        /The process that looks at photos stopped \(SIGKILL\)\. It starts again/,
      );
      messages.stop();
      await vscode.commands.executeCommand('selvedge.measure', document.uri);
      await until('people', () => !rulesOf(document).includes('not-measured'));
      assert.notEqual(photoRooms()[0], old);
    },
  },
  {
    name: 'a full disk: measuring says so, saving fails and loses nothing, and both work when there is room again',
    skipped: whyNoSmallDisk(),
    run: async () => {
      const disk = smallDisk(1024);
      try {
        const path = join(disk.folder, 'crops.yaml');
        copyFileSync(workspacePath('..', 'clients', 'june', 'green-dress.jpg'), join(disk.folder, 'a.jpg'));
        writeFileSync(path, 'selvedge: 1\nframes:\n  - photo: a.jpg\n');
        const document = await open(path);
        disk.fill();
        const messages = listen();
        await vscode.commands.executeCommand('selvedge.measure', document.uri);
        const said = messages.heard().join('\n');
        assert.match(said, /crops\.people\.jsonl cannot be written: the disk is full\./);
        const typed = `    note: "${'typed on a full disk '.repeat(400)}"\n`;
        const end = document.positionAt(document.getText().length);
        const edit = new vscode.WorkspaceEdit();
        edit.insert(document.uri, end, typed);
        assert.ok(await vscode.workspace.applyEdit(edit));
        await document.save();
        assert.ok(document.getText().endsWith(typed), 'the editor has what was typed');
        // This editor takes a part that was written for the whole; others say that they could not save.
        await until('it to be told', () => document.isDirty || messages.heard().some((each) => each.includes('is not whole'))); // prettier-ignore
        rmSync(join(disk.folder, 'filler'));
        await replace(document, 'selvedge: 1\n', 'selvedge: 1 \n');
        assert.ok(await document.save());
        assert.ok(readFileSync(path, 'utf8').endsWith(typed));
        await vscode.commands.executeCommand('selvedge.measure', document.uri);
        messages.stop();
        await until('people', () => !rulesOf(document).includes('not-measured'));
      } finally {
        await vscode.commands.executeCommand('workbench.action.closeAllEditors');
        disk.remove();
      }
    },
  },
];
