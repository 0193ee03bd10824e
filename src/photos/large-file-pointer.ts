import { readFile } from 'node:fs/promises';

/** The first line of a pointer file, as its open specification has it (git-lfs, docs/spec.md). */
export const POINTER_START = 'version https://git-lfs.github.com/spec/';
/** A pointer is smaller than this (same place). */
const POINTER_BYTES = 1024;

/**
 * What a pointer to large-file storage says of the file that it stands for.
 * @param size of the file at the path, in bytes
 * @returns `sha256:` and 64 hex digits; undefined when the file is no pointer, or cannot be read
 */
export async function pointedDigest(path: string, size: number): Promise<string | undefined> {
  if (size >= POINTER_BYTES) return undefined;
  const text = await readFile(path, 'latin1').catch(() => '');
  if (!text.startsWith(POINTER_START)) return undefined;
  return /^oid (sha256:[0-9a-f]{64})$/m.exec(text)?.[1];
}
