import { commands, Selection, Uri, window, workspace } from 'vscode';
import type { OpenManifests } from './open-manifests.ts';
import { rangeIn } from './places.ts';
import type { Part } from './part.ts';

/** What stands in a new allowance until somebody says why. */
export const REASON = 'say why';

/** Selects the reason of an allowance that was just written, so that typing replaces it. */
export function selectReasons(manifests: OpenManifests): Part {
  return commands.registerCommand('selvedge.selectReason', async (uri: unknown, index: unknown, key: unknown) => {
    if (!(uri instanceof Uri) || typeof index !== 'number' || typeof key !== 'string') return;
    const document = await workspace.openTextDocument(uri);
    const allowance = (await manifests.of(document))?.frameOf(index)?.frame.allow.get(key);
    if (!allowance) return;
    const editor = await window.showTextDocument(document);
    const written = rangeIn(document, allowance.range);
    // Between the quotation marks, when there are any.
    const inside = document.getText(written).indexOf(REASON);
    const start = document.offsetAt(written.start) + Math.max(0, inside);
    editor.selection = new Selection(document.positionAt(start), document.positionAt(start + REASON.length));
    editor.revealRange(written);
  });
}
