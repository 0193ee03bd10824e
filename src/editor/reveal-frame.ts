import type { TextDocument } from 'vscode';
import { Selection, TextEditorRevealType, ViewColumn, window } from 'vscode';
import type { Frame } from '../manifest/manifest.ts';
import { rangeIn } from './places.ts';

/** Puts the cursor on a frame's line; the keyboard goes there only when asked. */
export async function revealFrame(
  document: TextDocument,
  { photo }: Frame,
  { takesFocus, column = ViewColumn.One }: { readonly takesFocus: boolean; readonly column?: ViewColumn },
): Promise<void> {
  const shown = window.visibleTextEditors.find((each) => each.document === document);
  const editor =
    shown && !takesFocus
      ? shown
      : await window.showTextDocument(document, {
          viewColumn: shown?.viewColumn ?? column,
          preserveFocus: !takesFocus,
        });
  const range = rangeIn(document, photo.range);
  editor.selection = new Selection(range.start, range.start);
  editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
}
