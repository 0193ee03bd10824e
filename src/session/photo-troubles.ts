import type { Stats } from 'node:fs';
import { stat } from 'node:fs/promises';
import type { PhotoProblem } from '../photos/photo-error.ts';
import type { MeasureProblem } from '../vision/workroom/protocol.ts';
import { FileMemory } from './file-memory.ts';

const MOST_ENTRIES = 10_000;

/** What lies in the file's own bytes, and stays so until the file changes. */
const LASTING: ReadonlySet<MeasureProblem> = new Set<PhotoProblem>(['damaged', 'not-a-picture', 'no-preview']);

/**
 * Photos of which measuring found that their pixels cannot be read, remembered between runs. A check reads no more than
 * headers: it would send somebody to measure a photo that is damaged.
 */
export class PhotoTroubles {
  readonly #memory = new FileMemory('troubles.json', 'message', MOST_ENTRIES);

  /** What measuring said of this very file; undefined when nothing was wrong, or nobody measured it. */
  of(path: string, found: Stats): Promise<string | undefined> {
    return this.#memory.of(path, found);
  }

  /** Notes what measuring said, where it will be so again. */
  async add(path: string, problem: MeasureProblem, message: string): Promise<void> {
    const found = LASTING.has(problem) ? await stat(path).catch(() => undefined) : undefined;
    if (found) await this.#memory.set(path, found, message);
  }

  save(): Promise<void> {
    return this.#memory.save();
  }
}
