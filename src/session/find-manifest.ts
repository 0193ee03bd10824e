import { readdir, realpath, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { SessionError } from './session-error.ts';
import { shellPath } from './shell.ts';

/** What `init` writes, and what a folder stands for. */
export const MANIFEST_NAME = 'crops.yaml';

/** The names of the manifests in a folder, in order; none of a folder that cannot be listed. */
export async function manifestNamesIn(folder: string): Promise<string[]> {
  const names = await readdir(folder).catch(() => []);
  return names.filter((name) => /^(?:.+\.)?crops\.ya?ml$/i.test(name)).sort();
}

/**
 * The manifest that a path of the user's means: a folder stands for its crops.yaml, everything else for itself.
 * @throws SessionError when a folder has none
 */
export async function findManifest(path: string): Promise<string> {
  const found = await stat(path).catch(() => undefined);
  if (found?.isDirectory() !== true) return path;
  const inside = join(path, MANIFEST_NAME);
  if ((await stat(inside).catch(() => undefined)) !== undefined) return inside;
  const others = await manifestNamesIn(path);
  const remedy =
    others.length > 0
      ? `Name the manifest itself: ${others.map((name) => shellPath(join(path, name))).join(' or ')}.`
      : `Write one with: selvedge init ${shellPath(path)}`;
  throw new SessionError(`${path} has no ${MANIFEST_NAME}. ${remedy}`);
}

/** The same without a look for the manifest, which may be in a git revision alone. */
export async function manifestOf(path: string): Promise<string> {
  const found = await stat(path).catch(() => undefined);
  return found?.isDirectory() === true ? join(path, MANIFEST_NAME) : path;
}

/** The same for two spellings of one file. */
export async function identityOfFile(path: string): Promise<string> {
  return realpath(path).catch(() => path);
}
