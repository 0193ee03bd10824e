import { basename } from 'node:path';
import type { DocumentSelector, TextDocument, Uri } from 'vscode';

/** Which files are manifests: `crops.yaml` and `NAME.crops.yaml`, on a disk that this process can read. */
export const MANIFEST_FILES: DocumentSelector = { scheme: 'file', pattern: '**/{crops.yaml,*.crops.yaml}' };

export function isManifest({ uri }: Pick<TextDocument, 'uri'>): boolean {
  return uri.scheme === 'file' && isManifestName(uri);
}

function isManifestName(uri: Uri): boolean {
  return /^(?:.+\.)?crops\.yaml$/.test(basename(uri.path));
}
