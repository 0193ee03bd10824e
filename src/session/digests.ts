import type { Stats } from 'node:fs';
import { digestOfFile } from '../photos/digest.ts';
import { FileMemory } from './file-memory.ts';

const MOST_ENTRIES = 100_000;

/** Digests of photos, remembered between runs: a session of eight hundred photos is not read through at every check. */
export class Digests {
  readonly #memory = new FileMemory('digests.json', 'digest', MOST_ENTRIES);

  /**
   * @param found what stands at the path, looked up before the photo is read
   * @throws PhotoError when the photo cannot be read
   */
  async of(path: string, found: Stats): Promise<string> {
    const known = await this.#memory.of(path, found);
    if (known !== undefined) return known;
    const digest = await digestOfFile(path);
    await this.#memory.set(path, found, digest);
    return digest;
  }

  save(): Promise<void> {
    return this.#memory.save();
  }
}
