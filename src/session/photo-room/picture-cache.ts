import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readdir, rm, stat, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import { cacheFolder } from '../cache-folder.ts';
import { makeFolder } from '../make-folder.ts';
import { writeWhole } from '../write-whole.ts';

/** Pictures on disk, by what they show; the longest unused go when there are too many. */
export class PictureCache<Options extends object> {
  readonly #folder: string;
  readonly #make: (path: string, options: Options) => Promise<Buffer>;
  readonly #mostFiles: number;
  /** The folder is counted again after so many new files. */
  readonly #betweenCounts: number;
  #sinceCount: number;
  /** Pictures that are being made, by their files: who asks meanwhile waits for the same. */
  readonly #underWay = new Map<string, Promise<void>>();

  /** @param folder its name among this user's caches */
  constructor(folder: string, mostFiles: number, make: (path: string, options: Options) => Promise<Buffer>) {
    this.#folder = join(cacheFolder(), folder);
    this.#make = make;
    this.#mostFiles = mostFiles;
    this.#betweenCounts = Math.ceil(mostFiles / 20);
    this.#sinceCount = this.#betweenCounts;
  }

  /**
   * The file with a picture, made now if it is not there.
   * @throws PhotoError when the photo cannot be read
   */
  async fileFor(path: string, options: Options): Promise<string> {
    const file = join(this.#folder, `${await keyOf(path, options)}.jpg`);
    if (existsSync(file)) {
      const now = new Date();
      await utimes(file, now, now).catch(() => undefined);
      return file;
    }
    let making = this.#underWay.get(file);
    if (!making) {
      making = this.#write(file, path, options).finally(() => this.#underWay.delete(file));
      this.#underWay.set(file, making);
    }
    await making;
    return file;
  }

  async #write(file: string, path: string, options: Options): Promise<void> {
    const bytes = await this.#make(path, options);
    await makeFolder(this.#folder);
    await writeWhole(file, bytes);
    if (++this.#sinceCount >= this.#betweenCounts) await this.#drop();
  }

  async #drop(): Promise<void> {
    this.#sinceCount = 0;
    const names = await readdir(this.#folder);
    if (names.length <= this.#mostFiles) return;
    const files = await Promise.all(
      names.map(async (name) => {
        const path = join(this.#folder, name);
        return { path, used: (await stat(path).catch(() => undefined))?.mtimeMs ?? 0 };
      }),
    );
    files.sort((first, second) => first.used - second.used);
    const tooMany = files.slice(0, files.length - this.#mostFiles + this.#betweenCounts);
    await Promise.all(tooMany.map(({ path: old }) => rm(old, { force: true })));
  }
}

async function keyOf(path: string, options: object): Promise<string> {
  const found = await stat(path).catch(() => undefined);
  const what = [path, found?.size, found?.mtimeMs, options];
  return createHash('sha256').update(JSON.stringify(what)).digest('hex').slice(0, 32);
}
