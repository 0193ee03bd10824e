import type { Stats } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { PhotoProblem } from '../photos/photo-error.ts';
import type { MeasureProblem } from '../vision/workroom/protocol.ts';
import { cacheFolder } from './cache-folder.ts';
import { makeFolder } from './make-folder.ts';
import { writeWhole } from './write-whole.ts';

interface Remembered {
  readonly size: number;
  readonly modified: number;
  readonly message: string;
}

/** Beyond this many photos it begins anew. */
const MOST_ENTRIES = 10_000;

/** What lies in the file's own bytes, and stays so until the file changes. */
const LASTING: ReadonlySet<MeasureProblem> = new Set<PhotoProblem>(['damaged', 'not-a-picture', 'no-preview']);

/**
 * Photos of which measuring found that their pixels cannot be read, remembered by path, size and time of change. A check
 * reads no more than headers: it would send somebody to measure a photo that is damaged.
 */
export class PhotoTroubles {
  readonly #path = join(cacheFolder(), 'troubles.json');
  #loading: Promise<Map<string, Remembered>> | undefined;
  #hasChanged = false;

  /** What measuring said of this very file; undefined when nothing was wrong, or nobody measured it. */
  async of(path: string, { size, mtimeMs }: Stats): Promise<string | undefined> {
    const known = (await this.#entries()).get(path);
    return known?.size === size && known.modified === mtimeMs ? known.message : undefined;
  }

  /** Notes what measuring said, where it will be so again. */
  async add(path: string, problem: MeasureProblem, message: string): Promise<void> {
    const found = LASTING.has(problem) ? await stat(path).catch(() => undefined) : undefined;
    if (!found) return;
    (await this.#entries()).set(path, { size: found.size, modified: found.mtimeMs, message });
    this.#hasChanged = true;
  }

  /** Keeps what was learnt. A cache that cannot be written is no one's problem. */
  async save(): Promise<void> {
    if (!this.#hasChanged) return;
    const entries = [...(await this.#entries())].slice(-MOST_ENTRIES);
    try {
      await makeFolder(dirname(this.#path));
      await writeWhole(this.#path, JSON.stringify(Object.fromEntries(entries)));
    } catch {
      return;
    }
  }

  #entries(): Promise<Map<string, Remembered>> {
    return (this.#loading ??= load(this.#path));
  }
}

async function load(path: string): Promise<Map<string, Remembered>> {
  try {
    const read = JSON.parse(await readFile(path, 'utf8')) as Record<string, Partial<Remembered>>;
    const isWhole = (entry: [string, Partial<Remembered>]): entry is [string, Remembered] =>
      typeof entry[1].message === 'string';
    return new Map(Object.entries(read).filter(isWhole));
  } catch {
    return new Map();
  }
}
