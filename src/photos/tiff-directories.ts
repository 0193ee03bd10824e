import type { FileHandle } from 'node:fs/promises';
import { INPUT_LIMITS } from '../input-limits.ts';

/** One directory of a TIFF file: the numbers of each tag (TIFF 6.0; camera raw files are built like this). */
export type TiffDirectory = ReadonlyMap<number, readonly number[]>;

const SUB_DIRECTORIES = 0x014a;
const MOST_ENTRIES = 512;
const MOST_NUMBERS = 64;
/** Bytes of a number by TIFF type: byte, short, long, undefined, directory offset. Other types are not read. */
const BYTES: Readonly<Record<number, number>> = { 1: 1, 3: 2, 4: 4, 7: 1, 13: 4 };

/** All directories of a TIFF-like file, the nested ones too. Empty when it is none. */
export async function readTiffDirectories(file: FileHandle): Promise<TiffDirectory[]> {
  const header = await readAt(file, 0, 8);
  const order = header.toString('latin1', 0, 2);
  if (header.length < 8 || (order !== 'II' && order !== 'MM')) return [];
  const reader = new TiffReader(file, order === 'II');
  const waiting = [reader.long(header, 4)];
  const seen = new Set<number>();
  const directories: TiffDirectory[] = [];
  while (waiting.length > 0 && directories.length < INPUT_LIMITS.rawDirectories.most) {
    const offset = waiting.shift()!;
    if (offset === 0 || seen.has(offset)) continue;
    seen.add(offset);
    const { directory, next } = await reader.directoryAt(offset);
    directories.push(directory);
    waiting.push(next, ...(directory.get(SUB_DIRECTORIES) ?? []));
  }
  return directories;
}

class TiffReader {
  readonly #file: FileHandle;
  readonly #isLittle: boolean;

  constructor(file: FileHandle, isLittle: boolean) {
    this.#file = file;
    this.#isLittle = isLittle;
  }

  long(bytes: Buffer, offset: number): number {
    return this.#isLittle ? bytes.readUInt32LE(offset) : bytes.readUInt32BE(offset);
  }

  #short(bytes: Buffer, offset: number): number {
    return this.#isLittle ? bytes.readUInt16LE(offset) : bytes.readUInt16BE(offset);
  }

  async directoryAt(offset: number): Promise<{ directory: TiffDirectory; next: number }> {
    const directory = new Map<number, number[]>();
    const start = await readAt(this.#file, offset, 2);
    if (start.length < 2) return { directory, next: 0 };
    const count = Math.min(this.#short(start, 0), MOST_ENTRIES);
    const entries = await readAt(this.#file, offset + 2, 12 * count + 4);
    for (let at = 0; at + 12 <= Math.min(entries.length, 12 * count); at += 12) {
      directory.set(this.#short(entries, at), await this.#numbersOf(entries.subarray(at, at + 12)));
    }
    return { directory, next: entries.length === 12 * count + 4 ? this.long(entries, 12 * count) : 0 };
  }

  async #numbersOf(entry: Buffer): Promise<number[]> {
    const bytes = BYTES[this.#short(entry, 2)];
    if (bytes === undefined) return [];
    const count = Math.min(this.long(entry, 4), MOST_NUMBERS);
    const fits = bytes * this.long(entry, 4) <= 4;
    const data = fits ? entry.subarray(8) : await readAt(this.#file, this.long(entry, 8), bytes * count);
    return Array.from({ length: Math.min(count, Math.floor(data.length / bytes)) }, (_, index) => {
      const at = index * bytes;
      if (bytes === 1) return data[at]!;
      return bytes === 2 ? this.#short(data, at) : this.long(data, at);
    });
  }
}

export async function readAt(file: FileHandle, offset: number, length: number): Promise<Buffer> {
  const { buffer, bytesRead } = await file.read(Buffer.alloc(length), 0, length, offset);
  return buffer.subarray(0, bytesRead);
}
