import { readdir, realpath, stat } from 'node:fs/promises';
import { join, relative, resolve, sep } from 'node:path';
import { isInside } from './photos-folder.ts';

/** What lies under a folder; names with `/` between folders. */
export interface FolderFiles {
  /** In the order of a contact sheet (2 before 10). */
  readonly files: readonly string[];
  readonly links: readonly string[];
}

/**
 * All names under a folder but hidden ones; links are listed and not followed.
 * @throws whatever the file system says of the folder
 */
export async function filesUnder(folder: string): Promise<FolderFiles> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const root = resolve(folder);
  const collator = new Intl.Collator('en', { numeric: true });
  const named = entries
    .map((entry) => ({ entry, name: relative(root, resolve(entry.parentPath, entry.name)).split(sep).join('/') }))
    .filter(({ name }) => !name.split('/').some((part) => part.startsWith('.')))
    .sort((first, second) => collator.compare(first.name, second.name) || (first.name < second.name ? -1 : 1));
  return {
    files: named.filter(({ entry }) => entry.isFile()).map(({ name }) => name),
    links: named.filter(({ entry }) => entry.isSymbolicLink()).map(({ name }) => name),
  };
}

export type LinkTarget = 'inside' | 'outside' | 'folder' | 'nowhere';

/** Where a link under the folder leads. */
export async function targetOfLink(folder: string, name: string): Promise<LinkTarget> {
  try {
    const target = await realpath(join(folder, name));
    if ((await stat(target)).isDirectory()) return 'folder';
    return isInside(target, await realpath(folder)) ? 'inside' : 'outside';
  } catch {
    return 'nowhere';
  }
}
