import type { TextEditor } from 'vscode';
import { window, type TextDocument } from 'vscode';
import type { Frame } from '../manifest/manifest.ts';

/** The editor that shows a text, if one does. */
export function editorOf(document: TextDocument): TextEditor | undefined {
  return window.visibleTextEditors.find((editor) => editor.document === document);
}

/** The frame at the cursor, or the one before it. */
export function frameAtCursor(document: TextDocument, frames: readonly Frame[]): Frame | undefined {
  const cursor = editorOf(document)?.selection.active;
  if (!cursor) return undefined;
  const offset = document.offsetAt(cursor);
  const line = document.offsetAt(cursor.with({ character: 0 }));
  const isBefore = ({ range: { start } }: Frame): boolean =>
    start <= offset || (start >= line && document.positionAt(start).line === cursor.line);
  return frames.findLast(isBefore) ?? frames[0];
}
