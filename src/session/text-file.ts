import { readFile } from 'node:fs/promises';
import writeFileAtomic from 'write-file-atomic';
import { causeOf, SessionError } from './session-error.ts';

/**
 * A text file as it is, byte order mark and line ends included.
 * @throws SessionError when it cannot be read or is not UTF-8
 */
export async function readTextFile(path: string): Promise<string> {
  const bytes = await readFile(path).catch((error: unknown) => {
    throw new SessionError(`${path} cannot be read: ${causeOf(error)}.`, { cause: error });
  });
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch (error) {
    throw new SessionError(`${path} is not UTF-8 text. Save it as UTF-8.`, { cause: error });
  }
}

/**
 * Writes the whole file or leaves it as it was.
 * @throws SessionError when it cannot be written
 */
export async function writeTextFile(path: string, text: string): Promise<void> {
  try {
    await writeFileAtomic(path, text);
  } catch (error) {
    throw new SessionError(`${path} cannot be written: ${causeOf(error)}. It is as it was.`, { cause: error });
  }
}
