import { randomInt } from 'node:crypto';
import { chmod, chown, open, realpath, rename, rm, stat } from 'node:fs/promises';

/** A new file may be read and written by whom the user's mask lets. */
const NEW_FILE = 0o666;

/**
 * Writes all of it beside the file, makes sure that it is on the disk, and only then gives it the file's name, mode and
 * owner; where the path is a link, the file that it leads to is written. A disk that takes a part of it is an error
 * (write-file-atomic 6 takes a short write for a whole one).
 * @throws whatever the file system says; nothing is left then, and the file is as it was
 */
export async function writeWhole(path: string, content: string | Buffer): Promise<void> {
  const target = await realpath(path).catch(() => path);
  const present = await stat(target).catch(() => undefined);
  const beside = `${target}.${randomInt(1e9, 9e9)}`;
  try {
    const file = await open(beside, 'wx', NEW_FILE);
    try {
      await file.writeFile(content);
      await file.sync();
    } finally {
      await file.close();
    }
    if (present) {
      // Only the owner, or root, may give a file away; to keep writing matters more.
      await chown(beside, present.uid, present.gid).catch(() => undefined);
      await chmod(beside, present.mode);
    }
    await rename(beside, target);
  } catch (error) {
    await rm(beside, { force: true }).catch(() => undefined);
    throw error;
  }
}
