import { basename } from 'node:path';
import { window, type DocumentSelector, type TextDocument, type Uri } from 'vscode';

/** Which files are manifests: `crops.yaml` and `NAME.crops.yaml`, on a disk that this process can read. */
export const MANIFEST_FILES: DocumentSelector = { scheme: 'file', pattern: '**/{crops.yaml,*.crops.yaml}' };

export function isManifest({ uri }: Pick<TextDocument, 'uri'>): boolean {
  return uri.scheme === 'file' && isManifestName(uri);
}

/** What a command is about: the text that is edited, or the manifest that is seen while a panel beside it has the focus. */
export function documentInView(): TextDocument | undefined {
  return (
    window.activeTextEditor?.document ?? window.visibleTextEditors.map(({ document }) => document).find(isManifest)
  );
}

function isManifestName(uri: Uri): boolean {
  return /^(?:.+\.)?crops\.yaml$/.test(basename(uri.path));
}
