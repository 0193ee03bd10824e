import { readdir, realpath, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { isInside } from './photos-folder.ts';

/** What lies under a folder; names with `/` between folders. */
export interface FolderFiles {
  /** In the order of a contact sheet (2 before 10). */
  readonly files: readonly string[];
  readonly links: readonly string[];
  /** Folders in it that cannot be looked into. */
  readonly closedFolders: readonly string[];
}

/**
 * All names under a folder but hidden ones; links are listed and not followed, and a folder below that cannot be read
 * does not keep the others from being.
 * @throws whatever the file system says of the folder itself
 */
export async function filesUnder(folder: string): Promise<FolderFiles> {
  const files: string[] = [];
  const links: string[] = [];
  const closedFolders: string[] = [];
  const waiting = [{ prefix: '', entries: await readdir(folder, { withFileTypes: true }) }];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    for (const entry of next.entries.filter(({ name }) => !name.startsWith('.'))) {
      const name = `${next.prefix}${entry.name}`;
      if (entry.isFile()) files.push(name);
      else if (entry.isSymbolicLink()) links.push(name);
      else if (entry.isDirectory()) {
        const entries = await readdir(join(folder, name), { withFileTypes: true }).catch(() => undefined);
        if (entries) waiting.push({ prefix: `${name}/`, entries });
        else closedFolders.push(name);
      }
    }
  }
  return { files: inSheetOrder(files), links: inSheetOrder(links), closedFolders: inSheetOrder(closedFolders) };
}

function inSheetOrder(names: readonly string[]): string[] {
  const collator = new Intl.Collator('en', { numeric: true });
  return [...names].sort((first, second) => collator.compare(first, second) || (first < second ? -1 : 1));
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
