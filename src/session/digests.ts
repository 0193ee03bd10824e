import type { Stats } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { digestOfFile } from '../photos/digest.ts';
import { cacheFolder } from './cache-folder.ts';
import { makeFolder } from './make-folder.ts';
import { writeWhole } from './write-whole.ts';

interface Remembered {
  readonly size: number;
  readonly modified: number;
  readonly digest: string;
}

/** Beyond this many photos the cache begins anew. */
const MOST_ENTRIES = 100_000;

/**
 * Digests of photos, remembered between runs by path, size and time of change: a session of eight hundred photos is
 * not read through again at every check.
 */
export class Digests {
  readonly #path = join(cacheFolder(), 'digests.json');
  #loading: Promise<Map<string, Remembered>> | undefined;
  #changed = false;

  /**
   * @param found what stands at the path, looked up before the photo is read
   * @throws PhotoError when the photo cannot be read
   */
  async of(path: string, found: Stats): Promise<string> {
    const entries = await (this.#loading ??= this.#load());
    const known = entries.get(path);
    if (known?.size === found.size && known.modified === found.mtimeMs) return known.digest;
    const digest = await digestOfFile(path);
    entries.set(path, { size: found.size, modified: found.mtimeMs, digest });
    this.#changed = true;
    return digest;
  }

  /** Keeps what was learnt. A cache that cannot be written is no one's problem. */
  async save(): Promise<void> {
    if (!this.#changed || !this.#loading) return;
    const known = await this.#loading;
    const entries = known.size > MOST_ENTRIES ? [] : [...known];
    try {
      await makeFolder(dirname(this.#path));
      await writeWhole(this.#path, JSON.stringify(Object.fromEntries(entries)));
    } catch {
      return;
    }
  }

  async #load(): Promise<Map<string, Remembered>> {
    try {
      const read = JSON.parse(await readFile(this.#path, 'utf8')) as Record<string, Remembered>;
      return new Map(Object.entries(read).filter(([, entry]) => typeof entry.digest === 'string'));
    } catch {
      return new Map();
    }
  }
}
