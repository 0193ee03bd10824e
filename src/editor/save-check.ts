import { readFile } from 'node:fs/promises';
import type { TextDocument } from 'vscode';
import { window, workspace } from 'vscode';
import { causeOf } from '../session/session-error.ts';
import type { Log } from './log.ts';
import { isManifest } from './manifest-files.ts';
import type { Part } from './part.ts';
import { plainLine } from './plain-text.ts';

/** On a disk that is just full an editor may take a part of a file for the whole: what was saved is read again. */
export function checkSaves(log: Log): Part {
  return workspace.onDidSaveTextDocument(async (document) => {
    const version = document.version;
    const text = document.getText();
    if (!isManifest(document) || !document.encoding.startsWith('utf8')) return;
    const fault = await faultOf(document, text);
    // Meanwhile it may have been changed and saved again.
    if (fault === undefined || document.version !== version || document.isDirty) return;
    log.error(fault);
    void window.showErrorMessage(plainLine(fault));
  });
}

async function faultOf({ uri: { fsPath } }: TextDocument, text: string): Promise<string | undefined> {
  const remedy = 'The editor still has all of it: make room on the disk and save again.';
  try {
    const saved = (await readFile(fsPath, 'utf8')).replace(/^\uFEFF/, '');
    if (saved.length >= text.length || !text.startsWith(saved)) return undefined;
    return `${fsPath} is not whole: ${saved.length} of ${text.length} characters are on the disk. ${remedy}`;
  } catch (error) {
    return `${fsPath} cannot be read after it was saved: ${causeOf(error)}. ${remedy}`;
  }
}
