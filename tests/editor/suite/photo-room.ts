import assert from 'node:assert/strict';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import * as vscode from 'vscode';
import { photoRooms } from './photo-rooms.ts';
import { findingsOf, openManifest, replace, ruleOf, until, workspacePath, type HostTest } from './testing.ts';

export const photoRoom: HostTest[] = [
  {
    name: 'a people file that cannot be read leaves the text checked, and is read again when it is mended',
    run: async () => {
      // A copy that was not open before: an open session keeps the people that it has.
      cpSync(workspacePath('portfolio'), workspacePath('copy'), { recursive: true });
      const people = workspacePath('copy', 'crops.people.jsonl');
      const kept = readFileSync(people);
      writeFileSync(people, Buffer.from([0xff, 0xfe, 0x00, 0xc3, 0x28]));
      const document = await openManifest('copy', 'crops.yaml');
      const rules = (): string[] => findingsOf(document).map(ruleOf);
      await until('not-measured', () => rules().includes('not-measured'));
      writeFileSync(people, kept);
      await until('findings of crops', () => !rules().includes('not-measured') && rules().length > 0);
    },
  },
  {
    name: 'when the photo room dies the editor goes on, and it starts again when it is needed',
    run: async () => {
      const document = await openManifest('troubled', 'crops.yaml');
      const [old] = await until('the photo room', () => (photoRooms().length === 1 ? photoRooms() : undefined));
      process.kill(old!, 'SIGKILL');
      await until('its end', () => photoRooms().length === 0);
      const before = findingsOf(document).length;
      assert.ok(before > 0);
      await replace(document, 'studio-02.jpg', 'nowhere.jpg');
      await until('the new photo to be missed', () =>
        findingsOf(document).some(
          (found) => ruleOf(found) === 'photo-missing' && found.message.startsWith('nowhere.jpg'),
        ),
      );
      assert.equal(photoRooms().length, 1);
      assert.notEqual(photoRooms()[0], old);
    },
  },
  {
    name: 'fifty quick edits leave what one check of the last text finds',
    run: async () => {
      const document = await openManifest('harbour', 'crops.yaml');
      const editor = vscode.window.activeTextEditor!;
      const number = 'y: 0.17';
      const at = document.getText().indexOf(number) + 'y: 0.1'.length;
      for (let index = 0; index < 50; index++) {
        const range = new vscode.Range(document.positionAt(at), document.positionAt(at + 1));
        await editor.edit((edit) => {
          edit.replace(range, String(index % 10));
        });
      }
      const line = document.positionAt(at).line;
      await until('face-cut on the line', () =>
        findingsOf(document).some(
          (found) => found.range.start.line === line && /\d/.test(document.getText(found.range)),
        ),
      );
      for (const found of findingsOf(document)) assert.ok(found.range.end.line < document.lineCount);
    },
  },
];
