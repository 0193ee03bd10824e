import assert from 'node:assert/strict';
import { copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as vscode from 'vscode';
import { openManifest, replace, until, workspacePath, type HostTest } from './testing.ts';

function positionOf(document: vscode.TextDocument, text: string, into = 0): vscode.Position {
  const at = document.getText().indexOf(text);
  assert.ok(at >= 0, `${text} is in the text`);
  return document.positionAt(at + into);
}

async function hoverAt(document: vscode.TextDocument, position: vscode.Position): Promise<vscode.MarkdownString> {
  const hovers: vscode.Hover[] = await vscode.commands.executeCommand(
    'vscode.executeHoverProvider',
    document.uri,
    position,
  );
  const own = hovers.flatMap(({ contents }) => contents as vscode.MarkdownString[]);
  const found = own.find(({ value }) => value.includes('| :-- |'));
  assert.ok(found, 'a hover of a frame');
  return found;
}

async function labelsAt(document: vscode.TextDocument, position: vscode.Position): Promise<string[]> {
  const list: vscode.CompletionList = await vscode.commands.executeCommand(
    'vscode.executeCompletionItemProvider',
    document.uri,
    position,
  );
  // Words of the text are proposed by the editor itself.
  const own = list.items.filter(({ kind }) => kind !== vscode.CompletionItemKind.Text);
  return own.map(({ label }) => (typeof label === 'string' ? label : label.label));
}

/** Puts text into a manifest, gives the position behind it. */
async function typeAt(
  document: vscode.TextDocument,
  position: vscode.Position,
  text: string,
): Promise<vscode.Position> {
  const edit = new vscode.WorkspaceEdit();
  edit.insert(document.uri, position, text);
  assert.ok(await vscode.workspace.applyEdit(edit));
  return document.positionAt(document.offsetAt(position) + text.length);
}

export const reading: HostTest[] = [
  {
    name: 'a hover shows the crop as a picture and what it comes to',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const { value } = await hoverAt(document, positionOf(document, 'x: 0.25, y: 0.17'));
      assert.match(value, /!\[[^\]]+\]\(data:image\/jpeg;base64,[A-Za-z0-9+/=]+\\\|height=\d+\)/);
      assert.ok(value.length < 100_000);
      assert.match(value, / · 2&#58;3 · /);
      assert.match(value, /face&#45;cut/);
      assert.match(value, /left of the people [^·]+, right [^·]+ · /);
      const bytes = Buffer.from(/base64,([^|\\]+)/.exec(value)![1]!, 'base64');
      assert.ok(bytes.subarray(0, 2).equals(Buffer.from([0xff, 0xd8])), 'a JPEG');
      assert.ok(existsSync(join(process.env['SELVEDGE_CACHE']!, 'thumbnails')));
      assert.ok(readdirSync(join(process.env['SELVEDGE_CACHE']!, 'thumbnails')).length > 0);
    },
  },
  {
    name: 'a hover shows hostile names as text',
    run: async () => {
      const document = await openManifest('troubled', 'crops.yaml');
      await replace(document, 'studio-02.jpg', '"<b>x</b>[y](command:workbench.action.quit)|z.jpg"');
      const hover = await until('the hover', () => hoverAt(document, positionOf(document, '<b>x</b>')));
      assert.equal(hover.isTrusted ?? false, false);
      assert.equal(hover.supportHtml ?? false, false);
      assert.doesNotMatch(hover.value, /<b>|\]\(command|\(command/);
    },
  },
  {
    name: 'the outline has one entry for each frame',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const symbols: vscode.DocumentSymbol[] = await vscode.commands.executeCommand(
        'vscode.executeDocumentSymbolProvider',
        document.uri,
      );
      const names = symbols.map(({ name }) => name);
      const photos = [...document.getText().matchAll(/- photo: /g)];
      assert.equal(symbols.filter(({ kind }) => kind === vscode.SymbolKind.File).length, photos.length);
      assert.ok(names.includes('boardwalk-01.jpg#2'));
      assert.ok(names.includes('album'));
    },
  },
  {
    name: 'each photo is a link to its file; one that is not there leads nowhere',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const links: vscode.DocumentLink[] = await vscode.commands.executeCommand(
        'vscode.executeLinkProvider',
        document.uri,
        100,
      );
      const link = links.find(({ range }) => document.getText(range) === 'boardwalk-02.jpg');
      assert.equal(link?.target?.fsPath, workspacePath('harbour', 'proofs', 'boardwalk-02.jpg'));
    },
  },
  {
    name: 'hints tell length, shape and pixels, and can be switched off',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const whole = new vscode.Range(0, 0, document.lineCount, 0);
      const hints = async (): Promise<string[]> => {
        const found: vscode.InlayHint[] = await vscode.commands.executeCommand(
          'vscode.executeInlayHintProvider',
          document.uri,
          whole,
        );
        return found.map(({ label }) => (typeof label === 'string' ? label : label.map(({ value }) => value).join('')));
      };
      const on = await hints();
      assert.ok(
        on.some((hint) => /^[a-z -]+, 2:3, \d+ × \d+ px$/.test(hint)),
        on.join('; '),
      );
      const settings = vscode.workspace.getConfiguration('selvedge');
      await settings.update('hints', false, false);
      assert.deepEqual(await hints(), []);
      await settings.update('hints', undefined, false);
    },
  },
  {
    name: 'where more is found than the editor underlines, the hint behind a name counts it',
    run: async () => {
      const names = Array.from({ length: 501 }, (_, index) => `gone-${index}.jpg`);
      const path = workspacePath('harbour', 'crops.yaml');
      const before = readFileSync(path, 'utf8');
      const write = (most: number): void => {
        const frames = names.slice(0, most).map((name) => `  - photo: ${name}\n`);
        writeFileSync(path, `selvedge: 1\nphotos: proofs\nframes:\n${frames.join('')}`);
      };
      const document = await openManifest('harbour', 'crops.yaml');
      const hints = async (): Promise<number> => {
        const whole = new vscode.Range(0, 0, document.lineCount, 0);
        const found: vscode.InlayHint[] = await vscode.commands.executeCommand('vscode.executeInlayHintProvider', document.uri, whole); // prettier-ignore
        return found.filter(({ label }) => label === '1 error').length;
      };
      write(501);
      await until('a count at every frame', async () => ((await hints()) === 501 ? true : undefined));
      write(500);
      await until('no counts', async () => ((await hints()) === 0 ? true : undefined));
      writeFileSync(path, before);
      await until('the text as it was', () => (document.getText() === before ? true : undefined));
    },
  },
  {
    name: 'completion knows keys, values, photos that are not listed, people and what was found',
    run: async () => {
      copyFileSync(
        workspacePath('harbour', 'proofs', 'studio-01.jpg'),
        workspacePath('harbour', 'proofs', 'new one.jpg'),
      );
      const document = await openManifest('harbour', 'crops.yaml');
      const end = document.lineAt(document.lineCount - 1).range.end;
      const photo = await typeAt(document, end, '\n  - photo: ');
      const photos = await labelsAt(document, photo);
      assert.ok(photos.includes('"new one.jpg"'), photos.join());
      assert.ok(!photos.includes('boardwalk-01.jpg'));
      const length = await typeAt(document, photo, 'boardwalk-01.jpg\n    length: ');
      assert.ok((await labelsAt(document, length)).includes('three-quarter'));
      const key = await typeAt(document, length, 'close-up\n    ');
      const keys = await labelsAt(document, key);
      assert.ok(
        ['allow', 'straighten', 'final'].every((name) => keys.includes(name)),
        keys.join(),
      );
      const people = await typeAt(document, key, 'subjects: [');
      assert.ok((await labelsAt(document, people)).includes('1'));
      assert.ok(!keys.includes('photo') && !keys.includes('length'), `there already: ${keys.join()}`);
      const allow = await typeAt(document, people, '1]\n    allow: { ');
      assert.ok((await labelsAt(document, allow)).includes('headroom'));
    },
  },
  {
    name: 'completion knows rules with a line of help, their settings, shapes and outputs',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const rules = await typeAt(document, document.lineAt(positionOf(document, 'rules:').line).range.end, '\n  ');
      const list: vscode.CompletionList = await vscode.commands.executeCommand(
        'vscode.executeCompletionItemProvider',
        document.uri,
        rules,
      );
      const own = list.items.find(({ label }) => label === 'joint-cut');
      assert.ok(own?.detail !== undefined && own.detail.length > 20, 'a line of help');
      const severity = await typeAt(document, rules, 'headroom: { severity: ');
      assert.deepEqual((await labelsAt(document, severity)).slice(0, 4), ['error', 'warning', 'info', 'off']);
      const end = document.lineAt(document.lineCount - 1).range.end;
      const shape = await typeAt(document, end, '\n    aspect: ');
      assert.ok((await labelsAt(document, shape)).includes('"4:5"'));
      const output = await typeAt(document, shape, 'free\n    deliver: { ');
      const outputs = await labelsAt(document, output);
      assert.ok(outputs.includes('album') && outputs.includes('web'), outputs.join());
    },
  },
  {
    name: 'the notes of a session open as a preview',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      await vscode.commands.executeCommand('selvedge.notes');
      await until('the preview', () =>
        vscode.window.tabGroups.all.some(({ tabs }) =>
          tabs.some(({ label }) => label.includes('Notes for the next session')),
        ),
      );
      await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
      await vscode.window.showTextDocument(document);
    },
  },
  {
    name: 'a frame folds as one',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const line = positionOf(document, 'photo: boardwalk-04.jpg').line;
      const editor = vscode.window.activeTextEditor!;
      editor.selection = new vscode.Selection(line, 0, line, 0);
      await vscode.commands.executeCommand('editor.fold');
      await until('the fold', () => editor.visibleRanges.some(({ end }) => end.line === line));
      await vscode.commands.executeCommand('editor.unfold');
    },
  },
];
