import type { Uri } from 'vscode';
import { workspace } from 'vscode';
import { INPUT_LIMITS } from '../input-limits.ts';
import { readTextFile } from '../session/text-file.ts';

/** Where the photos of a manifest are, when the user says so. */
export function photosFolderFor({ fsPath }: Uri): string | undefined {
  return workspace.getConfiguration('selvedge').get<Record<string, string>>('photosFolders', {})[fsPath];
}

/** All manifests in the folders of the workspace, by path. */
export async function manifestUris(): Promise<Uri[]> {
  const found = await workspace.findFiles('**/{crops.yaml,*.crops.yaml}', '**/node_modules/**');
  return found.filter(({ scheme }) => scheme === 'file').sort((one, other) => (one.fsPath < other.fsPath ? -1 : 1));
}

/**
 * A manifest's text: what the editor has, else what is on the disk.
 * @throws SessionError when it cannot be read
 */
export async function manifestText(uri: Uri): Promise<string> {
  const open = workspace.textDocuments.find((document) => document.uri.toString() === uri.toString());
  return open ? open.getText() : readTextFile(uri.fsPath, INPUT_LIMITS.manifestBytes);
}

/** How a manifest is named among others. */
export function nameOf(uri: Uri): string {
  return workspace.asRelativePath(uri);
}
