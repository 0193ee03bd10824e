import { existsSync, type Stats } from 'node:fs';
import { lstat, readdir, realpath, stat } from 'node:fs/promises';
import { basename, dirname, isAbsolute, relative, resolve, sep } from 'node:path';
import { SessionError } from './session-error.ts';

/** Where a session's photos are, or why that place is not used. */
export type PhotosFolder =
  | {
      readonly path: string;
      /** The user's own word (`--photos`), not the manifest's. */
      readonly isGiven?: true;
    }
  | { readonly refused: string };

/**
 * The folder that a manifest names, kept inside the session's own folder: a manifest from somebody else must not read
 * a stranger's disk. `given` (from `--photos`) is the user's own word and may be anywhere.
 * @throws SessionError when `given` is no folder
 */
export async function findPhotosFolder(
  manifestPath: string,
  named: string,
  given: string | undefined,
): Promise<PhotosFolder> {
  if (given !== undefined) {
    const found = await stat(given).catch(() => undefined);
    if (found?.isDirectory() === true) return { path: resolve(given), isGiven: true };
    const what = found ? 'this is no folder' : 'there is no such folder';
    throw new SessionError(`--photos ${given}: ${what}. Give the folder in which the photos are.`);
  }
  const remedy = 'Name a folder inside the session’s own, or say where the photos are with --photos DIR.';
  if (isAbsolute(named) || /^[A-Za-z]:/.test(named) || named.startsWith('\\')) {
    return { refused: `photos must be relative to this file; "${named}" is not used. ${remedy}` };
  }
  const home = dirname(resolve(manifestPath));
  const folder = resolve(home, named);
  if (!isInside(folder, home) || !(await leadsInside(folder, home))) {
    return { refused: `"${named}" leads out of the session’s folder and is not used. ${remedy}` };
  }
  return { path: folder };
}

/** After so many names that are not there, a folder is listed: asking for each is a hundred times slower. */
const MISSES = 20;

/** A photos folder in which many photos are looked up: what a look at the disk tells of a folder is kept. */
export class PhotoPlaces {
  readonly #folder: string;
  readonly #real = new Map<string, Promise<string | undefined>>();
  readonly #listed = new Map<string, Promise<ReadonlySet<string> | undefined>>();
  #misses = 0;

  constructor(folder: string) {
    this.#folder = folder;
  }

  /**
   * A photo's path in the folder, and what stands there (absent: nothing does).
   * @returns undefined when a link or the name leads out of the folder
   */
  async find(photo: string): Promise<{ readonly path: string; readonly stats?: Stats } | undefined> {
    const path = resolve(this.#folder, photo);
    if (!isInside(path, this.#folder)) return undefined;
    if (this.#misses >= MISSES && (await this.#isMissing(path))) return { path };
    const stats = await lstat(path).catch(() => undefined);
    if (!stats) this.#misses++;
    if (stats?.isFile() !== true) {
      if (!(await leadsInside(path, this.#folder))) return undefined;
      const target = stats && (await stat(path).catch(() => undefined));
      return { path, ...(target && { stats: target }) };
    }
    const parent = dirname(path);
    const [realParent, realFolder] = await Promise.all([this.#realOf(parent), this.#realOf(this.#folder)]);
    const leadsOut = realParent !== undefined && realFolder !== undefined && !isInside(realParent, realFolder);
    return leadsOut ? undefined : { path, stats };
  }

  /** Whether its folder has nothing by that name, however the disk compares names. */
  async #isMissing(path: string): Promise<boolean> {
    const name = basename(path);
    // What may be another name for a file (short names, streams: both of Windows) is asked for itself.
    if (/[~:]/.test(name)) return false;
    const folder = dirname(path);
    let listed = this.#listed.get(folder);
    if (!listed) this.#listed.set(folder, (listed = namesIn(folder)));
    return (await listed)?.has(alike(name)) === false;
  }

  #realOf(folder: string): Promise<string | undefined> {
    let real = this.#real.get(folder);
    if (!real) this.#real.set(folder, (real = realpath(folder).catch(() => undefined)));
    return real;
  }
}

/** What is in a folder; undefined when it cannot be listed, which does not mean that nothing is there. */
async function namesIn(folder: string): Promise<ReadonlySet<string> | undefined> {
  const names = await readdir(folder).catch(() => undefined);
  return names && new Set(names.map(alike));
}

/** The same for names that some disk takes for one: by case, by how accents are written, with dots or spaces at the end. */
function alike(name: string): string {
  return name
    .normalize('NFKC')
    .toUpperCase()
    .toLowerCase()
    .replace(/[. ]+$/, '');
}

/** Whether the path, all links followed, stays in the folder. A path that is not there leads nowhere. */
export async function leadsInside(path: string, folder: string): Promise<boolean> {
  if (!existsSync(path)) return true;
  try {
    return isInside(await realpath(path), await realpath(folder));
  } catch {
    return true;
  }
}

/** Whether a path, taken as it is written, lies in the folder or is it. */
export function isInside(path: string, folder: string): boolean {
  const way = relative(folder, path);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way));
}
