import { open, stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { refuseHomeSign } from './home-sign.ts';
import { makeFolder } from './make-folder.ts';
import { manifestWithPhotosIn } from './photos-of-others.ts';
import { isInside, type PhotosFolder } from './photos-folder.ts';
import { realPlace } from './real-place.ts';
import { causeOf, SessionError } from './session-error.ts';
import { requireWritable, writeTextFile } from './text-file.ts';

/** A file that a command writes, and what its beginning says that tells it from anybody else's. */
export interface OwnFile {
  readonly name: string;
  readonly mark: string;
}

/** Beyond so many bytes a mark is not looked for. */
const HEAD_BYTES = 4096;

/**
 * Makes sure, before long work, that files can be written into a folder; makes the folder.
 * @returns the folder's whole path
 * @throws SessionError when it is the photos folder or lies in it, has another session's photos, cannot be written, or has files of these names that
 * are not ours
 */
export async function prepareFolder(folder: string, files: readonly OwnFile[], photos: PhotosFolder): Promise<string> {
  if (folder.trim() === '') throw new SessionError('The folder to write into has no name. Give one with --to.');
  refuseHomeSign(folder);
  const whole = resolve(folder);
  if (!('refused' in photos) && isInside(await realPlace(whole), await realPlace(photos.path))) {
    throw new SessionError(
      `${folder} is the photos folder or lies in it, and nothing is ever written there. Give a folder outside ${photos.path}.`,
    );
  }
  const other = await manifestWithPhotosIn(await realPlace(whole));
  if (other !== undefined) {
    throw new SessionError(`${folder} has the photos of a session (${other}), and nothing is ever written there.`);
  }
  await makeFolder(whole).catch((error: unknown) => {
    throw new SessionError(`${folder} cannot be made: ${causeOf(error)}.`, { cause: error });
  });
  for (const { name, mark } of files) {
    const path = join(whole, name);
    if ((await headOf(path))?.includes(mark) === false) {
      throw new SessionError(`${path} is there and was not written by this command. Move it, or give another folder.`);
    }
    await requireWritable(path);
  }
  return whole;
}

/** Writes a file into a prepared folder, whole or not at all. */
export async function writeOwnFile(folder: string, name: string, text: string): Promise<void> {
  await writeTextFile(join(folder, name), text);
}

async function headOf(path: string): Promise<string | undefined> {
  const found = await stat(path).catch(() => undefined);
  if (!found) return undefined;
  if (!found.isFile()) return '';
  const file = await open(path, 'r').catch((error: unknown) => {
    throw new SessionError(`${path} cannot be read: ${causeOf(error)}.`, { cause: error });
  });
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, 0);
    return buffer.subarray(0, bytesRead).toString('utf8');
  } finally {
    await file.close();
  }
}
