import { availableParallelism } from 'node:os';
import { formatPeopleFile } from '../people/people-file.ts';
import { mergeMeasured } from '../people/merge.ts';
import type { PhotoPeople } from '../people/person.ts';
import type { PhotoJob } from '../vision/workroom/pool.ts';
import { createWorkroomPool } from '../vision/workroom/pool.ts';
import { alone } from './alone.ts';
import { photosOfShard, type Shard } from './check-part.ts';
import { PhotoTroubles } from './photo-troubles.ts';
import { photoStates } from './photo-states.ts';
import { readPeopleFile, type Session } from './session.ts';
import { removeLeftovers } from './leftovers.ts';
import { requireWritable, writeTextFile } from './text-file.ts';

export interface MeasureOptions {
  /** The product's version. */
  readonly version: string;
  readonly workers?: number | undefined;
  /** Only the photos of this shard. Absent: all. */
  readonly shard?: Shard | undefined;
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: MeasureProgress) => void;
}

export interface MeasureProgress {
  /** Photos that are done in this run. */
  readonly done: number;
  /** Photos that this run measures. */
  readonly total: number;
}

export interface MeasureFailure {
  readonly photo: string;
  readonly message: string;
}

/** What a run of `measureSession` did. */
export interface MeasureReport {
  readonly peoplePath: string;
  readonly measured: readonly string[];
  /** Photos that had been measured and have not changed since. */
  readonly unchanged: readonly string[];
  /** In the order of the manifest. */
  readonly failed: readonly MeasureFailure[];
  readonly wasInterrupted: boolean;
}

/** The people file is written with the first result, then at most this often, and at the end. */
const SECONDS_BETWEEN_WRITES = 4;

/**
 * Measures the photos that have no people yet, or have changed since, and keeps each result as it comes: an interrupted
 * run loses at most a few seconds, and the next one goes on from there. Photos are only read.
 * @throws SessionError when the people file cannot be written; said before anything is measured
 */
export async function measureSession(session: Session, options: MeasureOptions): Promise<MeasureReport> {
  await removeLeftovers([session.peoplePath]);
  const { jobs, unchanged, failed } = await chooseJobs(session, options);
  if (jobs.length > 0) await requireWritable(session.peoplePath);
  const writer = new PeopleWriter(session.peoplePath);
  const measured: string[] = [];
  const failures = [...failed];
  const troubles = new PhotoTroubles();
  const workers = Math.min(options.workers ?? availableParallelism(), Math.max(1, jobs.length));
  const pool = createWorkroomPool({ version: options.version, workers });
  try {
    options.onProgress?.({ done: 0, total: jobs.length });
    for await (const result of pool.measure(jobs, options.signal)) {
      if ('people' in result) {
        measured.push(result.job.photo);
        await writer.add(result.people);
      } else {
        failures.push({ photo: result.job.photo, message: result.message });
        await troubles.add(result.job.path, result.problem, result.message);
      }
      options.onProgress?.({ done: measured.length + failures.length - failed.length, total: jobs.length });
    }
  } finally {
    pool.close();
    await writer.flush();
    await troubles.save();
  }
  const order = new Map(session.manifest.frames.map((frame) => [frame.photo.value, frame.index]));
  return {
    peoplePath: session.peoplePath,
    measured,
    unchanged,
    failed: failures.sort((first, second) => order.get(first.photo)! - order.get(second.photo)!),
    wasInterrupted: options.signal?.aborted === true,
  };
}

interface Choice {
  readonly jobs: readonly PhotoJob[];
  readonly unchanged: readonly string[];
  readonly failed: readonly MeasureFailure[];
}

async function chooseJobs(session: Session, { shard, signal }: MeasureOptions): Promise<Choice> {
  const jobs: PhotoJob[] = [];
  const unchanged: string[] = [];
  const failed: MeasureFailure[] = [];
  const { photosFolder } = session;
  const included = shard && photosOfShard(session, shard);
  for (const [photo, state] of await photoStates(session, signal, included)) {
    if (included?.has(photo) === false) continue;
    if (state.kind === 'unusable') failed.push({ photo, message: state.message });
    else if (state.kind === 'absent') {
      const hint = state.meant === undefined ? '' : ` Did you mean ${state.meant}?`;
      const message =
        'refused' in photosFolder ? photosFolder.refused : `${photo} is not in ${photosFolder.path}.${hint}`;
      failed.push({ photo, message });
    } else if (state.kind === 'present' && session.people.photos.has(photo)) unchanged.push(photo);
    else jobs.push({ path: state.path, photo });
  }
  return { jobs, unchanged, failed };
}

/** Writes results into the people file as it is at that moment: whoever edits it meanwhile loses nothing. */
class PeopleWriter {
  readonly #path: string;
  #waiting: PhotoPeople[] = [];
  #lastWrite = -Infinity;

  constructor(path: string) {
    this.#path = path;
  }

  async add(people: PhotoPeople): Promise<void> {
    this.#waiting.push(people);
    if (Date.now() - this.#lastWrite >= SECONDS_BETWEEN_WRITES * 1000) await this.flush();
  }

  async flush(): Promise<void> {
    if (this.#waiting.length === 0) return;
    await alone(this.#path, async () => {
      const file = await readPeopleFile(this.#path);
      const merged = this.#waiting.map((people) => mergeMeasured(file.photos.get(people.photo), people));
      await writeTextFile(this.#path, formatPeopleFile(file, merged));
    });
    this.#waiting = [];
    this.#lastWrite = Date.now();
  }
}
