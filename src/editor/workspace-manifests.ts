import type { Uri } from 'vscode';
import { workspace } from 'vscode';
import { INPUT_LIMITS } from '../input-limits.ts';
import { readTextFile } from '../session/text-file.ts';
import { isManifest } from './manifest-files.ts';

/** Where manifests are looked for, and watched. */
export const MANIFEST_PATTERN = '**/{crops.yaml,*.crops.yaml}';
const NOT_THERE = '**/{node_modules,.git}/**';
/** Nobody shoots so many sessions into one workspace; a folder full of copies must not hold the editor up. */
const MOST_SESSIONS = 500;

/** Where the photos of a manifest are, when the user says so. */
export function photosFolderFor({ fsPath }: Uri): string | undefined {
  return workspace.getConfiguration('selvedge').get<Record<string, string>>('photosFolders', {})[fsPath];
}

/** All manifests in the folders of the workspace and those that are open, by path. */
export async function manifestUris(): Promise<Uri[]> {
  const found = await workspace.findFiles(MANIFEST_PATTERN, NOT_THERE, MOST_SESSIONS);
  const open = workspace.textDocuments.map(({ uri }) => uri);
  const manifests = [...found, ...open].filter((uri) => isManifest({ uri }));
  const unique = new Map(manifests.map((uri) => [uri.toString(), uri]));
  return [...unique.values()].sort((first, second) => first.path.localeCompare(second.path));
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
