import { open } from 'node:fs/promises';
import { asPhotoError, PhotoError } from './photo-error.ts';

/** The first line of a pointer file, as its open specification has it (git-lfs, docs/spec.md). */
const POINTER_START = 'version https://git-lfs.github.com/spec/';

/**
 * Looks at the start of a file for the things an image library would explain badly, without decoding it.
 * @throws PhotoError when the file is missing, empty, unreadable or a pointer to large-file storage
 */
export async function checkPhotoFile(path: string): Promise<void> {
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
