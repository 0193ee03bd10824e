// @ts-check
import { readdirSync } from 'node:fs';
import { join } from 'node:path';

/**
 * All files under a folder, with `/` between folders.
 * @param {string} folder
 */
export function filesIn(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll('\\', '/'),
    );
}
