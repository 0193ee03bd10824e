import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder, also when this code runs as part of a bundle. */
export const PROJECT_FOLDER = findUp(dirname(fileURLToPath(import.meta.url)));

function findUp(folder: string): string {
  if (existsSync(join(folder, 'package.json'))) return folder;
  const parent = dirname(folder);
  if (parent === folder) throw new Error('There is no package.json above the tests.');
  return findUp(parent);
}
