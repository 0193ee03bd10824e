import { readdir, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** Younger ones may belong to somebody who is writing at this moment. */
const LEFTOVER_SECONDS = 60;

/**
 * Removes what runs that were killed while writing these files left beside them: `NAME.` and digits, the whole new file or
 * a part of it. The files themselves are not touched. A folder that does not let it stays as it is.
 */
export async function removeLeftovers(paths: readonly string[]): Promise<void> {
  const byFolder = new Map<string, Set<string>>();
  for (const path of paths) {
    const folder = dirname(path);
    byFolder.set(folder, (byFolder.get(folder) ?? new Set<string>()).add(basename(path)));
  }
  for (const [folder, files] of byFolder) {
    for (const name of await readdir(folder).catch(() => [])) {
      if (!/\.\d{1,10}$/.test(name) || !files.has(name.replace(/\.\d+$/, ''))) continue;
      const leftover = join(folder, name);
      const found = await stat(leftover).catch(() => undefined);
      const isOld = found !== undefined && Date.now() - found.mtimeMs > LEFTOVER_SECONDS * 1000;
      if (isOld && found.isFile()) await rm(leftover).catch(() => undefined);
    }
  }
}
