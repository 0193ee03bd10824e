import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import { checkPhotoFile } from './check-file.ts';
import { asPhotoError } from './photo-error.ts';

/**
 * `sha256:` and 64 hex digits, of the file's bytes, read as a stream.
 * @throws PhotoError when the file is missing, cannot be read, or is not the picture itself
 */
export async function digestOfFile(path: string): Promise<string> {
  await checkPhotoFile(path);
  const hash = createHash('sha256');
  try {
    await pipeline(createReadStream(path), hash);
  } catch (error) {
    throw asPhotoError(error);
  }
  return `sha256:${hash.digest('hex')}`;
}
