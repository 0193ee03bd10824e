import { mkdir, stat } from 'node:fs/promises';
import { dirname } from 'node:path';

/**
 * Makes a folder, and those above it that are missing; one that is there is fine. Not by `recursive`: Node 20 never comes
 * back from that where a file system answers ENOENT to every new folder, as /proc does.
 * @throws whatever the file system says
 */
export async function makeFolder(path: string): Promise<void> {
  try {
    await mkdir(path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' && dirname(path) !== path) {
      await makeFolder(dirname(path));
      await makeOne(path);
    } else if (!(await isFolder(path))) throw error;
  }
}

async function makeOne(path: string): Promise<void> {
  try {
    await mkdir(path);
  } catch (error) {
    // Somebody else may have made it meanwhile.
    if (!(await isFolder(path))) throw error;
  }
}

async function isFolder(path: string): Promise<boolean> {
  return (await stat(path).catch(() => undefined))?.isDirectory() === true;
}
