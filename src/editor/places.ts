import type { TextDocument } from 'vscode';
import { Range, TextEdit, WorkspaceEdit } from 'vscode';
import type { TextRange } from '../manifest/manifest.ts';
import type { TextEdit as ManifestEdit } from '../manifest/text-edit.ts';

/** Offsets of the manifest, which are offsets of the document, as the editor's lines and characters. */
export function rangeIn(document: TextDocument, { start, end }: TextRange): Range {
  return new Range(document.positionAt(start), document.positionAt(end));
}

/** Edits of the manifest as one edit of the workspace: one step back undoes them all. */
export function workspaceEdit(document: TextDocument, edits: readonly ManifestEdit[]): WorkspaceEdit {
  return addEdits(new WorkspaceEdit(), document, edits);
}

/** The same, together with edits of other documents. */
export function addEdits(edit: WorkspaceEdit, document: TextDocument, edits: readonly ManifestEdit[]): WorkspaceEdit {
  edit.set(
    document.uri,
    edits.map(({ start, end, text }) => TextEdit.replace(rangeIn(document, { start, end }), text)),
  );
  return edit;
}
