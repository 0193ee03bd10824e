import { open, stat } from 'node:fs/promises';
import { INPUT_LIMITS } from '../input-limits.ts';
import { POINTER_START } from './large-file-pointer.ts';
import { asPhotoError, PhotoError } from './photo-error.ts';

/**
 * Looks at the start of a file for the things an image library would explain badly, without decoding it.
 * @throws PhotoError when the file is missing, empty, unreadable, too large, no plain file, or a pointer to large-file
 * storage
 */
export async function checkPhotoFile(path: string): Promise<void> {
  await checkKind(path);
  const start = await readStart(path);
  if (start.length === 0) {
    throw new PhotoError('empty', 'The file is empty (zero bytes). Copy it again from the card or the backup.');
  }
  if (start.toString('latin1').startsWith(POINTER_START)) {
    throw new PhotoError(
      'large-file-pointer',
      'The file is only a pointer to large-file storage, not the picture. Fetch the picture first (git lfs pull).',
    );
  }
}

/** Opening a named pipe or a device would wait for ever. */
async function checkKind(path: string): Promise<void> {
  const found = await stat(path).catch((error: unknown) => {
    throw asPhotoError(error);
  });
  if (!found.isFile()) {
    const kind = found.isDirectory() ? 'a folder' : 'no plain file';
    throw new PhotoError('unreadable', `The photo cannot be read: it is ${kind}. Put the picture itself there.`);
  }
  const { most } = INPUT_LIMITS.photoBytes;
  if (found.size > most) {
    throw new PhotoError('too-many-bytes', `The file has more than ${most / 1_000_000_000} GB. Export a smaller copy.`);
  }
}

async function readStart(path: string): Promise<Buffer> {
  try {
    const file = await open(path, 'r');
    try {
      const { buffer, bytesRead } = await file.read(Buffer.alloc(64), 0, 64, 0);
      return buffer.subarray(0, bytesRead);
    } finally {
      await file.close();
    }
  } catch (error) {
    throw asPhotoError(error);
  }
}
