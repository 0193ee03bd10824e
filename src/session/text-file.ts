import { existsSync } from 'node:fs';
import { readFile, rm, stat, writeFile } from 'node:fs/promises';
import type { InputLimit } from '../input-limits.ts';
import { causeOf, SessionError } from './session-error.ts';
import { writeWhole } from './write-whole.ts';

/**
 * A text file as it is, byte order mark and line ends included.
 * @param limit how large it may be
 * @throws SessionError when it cannot be read, is no plain file, is too large or is not UTF-8
 */
export async function readTextFile(path: string, limit: InputLimit): Promise<string> {
  await checkKind(path, limit);
  const bytes = await readFile(path).catch((error: unknown) => {
    throw new SessionError(`${path} cannot be read: ${causeOf(error)}.`, { cause: error });
  });
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch (error) {
    throw new SessionError(`${path} is not UTF-8 text. Save it as UTF-8.`, { cause: error });
  }
}

/** Opening a named pipe or a device would wait for ever; a file of many gigabytes would fill the memory. */
async function checkKind(path: string, { most, of }: InputLimit): Promise<void> {
  const found = await stat(path).catch((error: unknown) => {
    throw new SessionError(`${path} cannot be read: ${causeOf(error)}.`, { cause: error });
  });
  if (found.isDirectory()) throw new SessionError(`${path} cannot be read: it is a folder, not a file.`);
  if (!found.isFile()) throw new SessionError(`${path} cannot be read: it is no plain file.`);
  if (found.size <= most) return;
  const megabytes = (bytes: number): string => `${Math.ceil(bytes / 1_000_000)} MB`;
  throw new SessionError(
    `${path} has ${megabytes(found.size)}, and ${of} has at most ${megabytes(most)}; it is not read. Split the session.`,
  );
}

/**
 * Writes the whole file or leaves it as it was.
 * @throws SessionError when it cannot be written
 */
export async function writeTextFile(path: string, text: string): Promise<void> {
  try {
    await writeWhole(path, text);
  } catch (error) {
    const state = existsSync(path) ? 'It is as it was.' : 'Nothing was written.';
    throw new SessionError(`${path} cannot be written: ${causeOf(error)}. ${state}`, { cause: error });
  }
}

/**
 * Makes sure that a file can be written at a place before long work for it begins: writes an empty file beside it and
 * takes it away again. The file itself is not touched.
 * @throws SessionError when it cannot be written
 */
export async function requireWritable(path: string): Promise<void> {
  const probe = `${path}.${process.pid}`;
  try {
    await writeFile(probe, '', { flag: 'wx' });
    await rm(probe);
  } catch (error) {
    throw new SessionError(`${path} cannot be written: ${causeOf(error)}. Nothing was begun.`, { cause: error });
  }
}
