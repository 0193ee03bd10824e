import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, readdir, rm, stat, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import writeFileAtomic from 'write-file-atomic';
import { makeThumbnail, type ThumbnailOptions } from '../../photos/thumbnail.ts';
import { cacheFolder } from '../cache-folder.ts';

/** Some twenty thousand bytes each. */
const MOST_FILES = 4000;
/** The folder is counted again after so many new files. */
const BETWEEN_COUNTS = 200;

/** Thumbnails on disk, by what they show; the longest unused go when there are too many. */
export class ThumbnailCache {
  readonly #folder = join(cacheFolder(), 'thumbnails');
  #sinceCount = BETWEEN_COUNTS;

  /**
   * The file with a thumbnail, made now if it is not there.
   * @throws PhotoError when the photo cannot be read
   */
  async fileFor(path: string, options: ThumbnailOptions): Promise<string> {
    const file = join(this.#folder, `${await keyOf(path, options)}.jpg`);
    if (existsSync(file)) {
      const now = new Date();
      await utimes(file, now, now).catch(() => undefined);
      return file;
    }
    const bytes = await makeThumbnail(path, options);
    await mkdir(this.#folder, { recursive: true });
    await writeFileAtomic(file, bytes);
    if (++this.#sinceCount >= BETWEEN_COUNTS) await this.#drop();
    return file;
  }

  async #drop(): Promise<void> {
    this.#sinceCount = 0;
    const names = await readdir(this.#folder);
    if (names.length <= MOST_FILES) return;
    const files = await Promise.all(
      names.map(async (name) => {
        const path = join(this.#folder, name);
        return { path, used: (await stat(path).catch(() => undefined))?.mtimeMs ?? 0 };
      }),
    );
    files.sort((first, second) => first.used - second.used);
    const tooMany = files.slice(0, files.length - MOST_FILES + BETWEEN_COUNTS);
    await Promise.all(tooMany.map(({ path: old }) => rm(old, { force: true })));
  }
}

async function keyOf(path: string, { crop, degrees, longEdge }: ThumbnailOptions): Promise<string> {
  const found = await stat(path).catch(() => undefined);
  const { x, y, w, h } = crop;
  const what = [path, found?.size, found?.mtimeMs, x, y, w, h, degrees, longEdge];
  return createHash('sha256').update(JSON.stringify(what)).digest('hex').slice(0, 32);
}
