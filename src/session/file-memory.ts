import type { Stats } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { cacheFolder } from './cache-folder.ts';
import { makeFolder } from './make-folder.ts';
import { writeWhole } from './write-whole.ts';

interface Remembered {
  readonly size: number;
  readonly modified: number;
}

/** Something known of files, remembered between runs by path, size and time of change, in the user's cache folder. */
export class FileMemory<Key extends string> {
  readonly #path: string;
  readonly #key: Key;
  readonly #most: number;
  #loading: Promise<Map<string, Remembered & Record<Key, string>>> | undefined;
  #hasChanged = false;

  /**
   * @param key under which the text that is known stands in the file of this name
   * @param most beyond this many files it begins anew
   */
  constructor(name: string, key: Key, most: number) {
    this.#path = join(cacheFolder(), name);
    this.#key = key;
    this.#most = most;
  }

  /** What is known of this very file; undefined when it is another by now. */
  async of(path: string, { size, mtimeMs }: Stats): Promise<string | undefined> {
    const known = (await this.#entries()).get(path);
    return known?.size === size && known.modified === mtimeMs ? known[this.#key] : undefined;
  }

  async set(path: string, { size, mtimeMs }: Stats, text: string): Promise<void> {
    const entry = { size, modified: mtimeMs, [this.#key]: text } as Remembered & Record<Key, string>;
    (await this.#entries()).set(path, entry);
    this.#hasChanged = true;
  }

  /** Keeps what was learnt. A cache that cannot be written is no one's problem. */
  async save(): Promise<void> {
    if (!this.#hasChanged) return;
    const known = await this.#entries();
    const entries = known.size > this.#most ? [] : [...known];
    try {
      await makeFolder(dirname(this.#path));
      await writeWhole(this.#path, JSON.stringify(Object.fromEntries(entries)));
    } catch {
      return;
    }
  }

  #entries(): Promise<Map<string, Remembered & Record<Key, string>>> {
    return (this.#loading ??= this.#load());
  }

  async #load(): Promise<Map<string, Remembered & Record<Key, string>>> {
    try {
      const read = JSON.parse(await readFile(this.#path, 'utf8')) as Record<string, Remembered & Record<Key, string>>;
      return new Map(Object.entries(read).filter(([, entry]) => typeof entry[this.#key] === 'string'));
    } catch {
      return new Map();
    }
  }
}
