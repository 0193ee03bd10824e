import { randomInt } from 'node:crypto';
import { open, rename, rm } from 'node:fs/promises';

/**
 * Writes all bytes beside the file, makes sure that they are on the disk, and only then gives them the file's name. A disk
 * that takes a part of them is an error: write-file-atomic takes a short write for a whole one.
 * @throws whatever the file system says; nothing is left then, and the file is as it was
 */
export async function writeWhole(path: string, bytes: Buffer): Promise<void> {
  const beside = `${path}.${randomInt(1e9, 9e9)}`;
  try {
    const file = await open(beside, 'wx');
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true }).catch(() => undefined);
    throw error;
  }
}
