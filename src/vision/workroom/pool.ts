import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { PhotoPeople } from '../../people/person.ts';
import type { RuntimeKind } from '../runtime/runtime.ts';
import { PROTOCOL_VERSION, type MeasureProblem } from './protocol.ts';
import { Workroom, WorkroomDied } from './workroom.ts';

export interface WorkroomPoolOptions {
  /** The product's version, for `by`. */
  readonly version: string;
  /** How many processes; one a core if absent. */
  readonly workers?: number;
  /** Absent: what SELVEDGE_RUNTIME says (`native` or `wasm`), else native, else WebAssembly. */
  readonly runtime?: RuntimeKind;
  /** The built `workroom.js`; the one of this build if absent. */
  readonly script?: string;
  /** The folder with the converted models; `models` beside the script if absent. */
  readonly modelsFolder?: string;
}

export interface PhotoJob {
  readonly path: string;
  /** What the people file calls the photo. */
  readonly photo: string;
}

export type MeasureResult =
  | { readonly job: PhotoJob; readonly people: PhotoPeople }
  | { readonly job: PhotoJob; readonly problem: MeasureProblem; readonly message: string };

export interface WorkroomPool {
  /**
   * Measures photos, several at once, and gives each result as it is done (not in the order asked). A photo that
   * cannot be measured gives a result with its problem; it never stops the others. When `signal` aborts, the results
   * end early, without an error.
   */
  measure(
    jobs: Iterable<PhotoJob> | AsyncIterable<PhotoJob>,
    signal?: AbortSignal,
  ): AsyncGenerator<MeasureResult, void>;
  /** The ids of the processes that run. */
  processIds(): number[];
  /** Ends all processes; what is being measured is given up. */
  close(): void;
}

/** Processes that measure photos. They start when the first photo comes and stay until `close`. */
export function createWorkroomPool(options: WorkroomPoolOptions): WorkroomPool {
  const script = options.script ?? builtScript();
  const settings = {
    protocol: PROTOCOL_VERSION,
    modelsFolder: options.modelsFolder ?? join(dirname(script), 'models'),
    version: options.version,
    ...(options.runtime && { runtime: options.runtime }),
  };
  const count = Math.max(1, options.workers ?? availableParallelism());
  const workrooms = Array.from({ length: count }, () => new Workroom(script, settings));
  const close = (): void => {
    workrooms.forEach((workroom) => {
      workroom.close();
    });
  };
  return {
    measure: (jobs, signal) => measureAll(workrooms, jobs, signal),
    processIds: () => workrooms.flatMap(({ processId }) => (processId === undefined ? [] : [processId])),
    close,
  };
}

/** Beside the bundle that this code is part of; from source, in the project's `dist`. */
function builtScript(): string {
  const here = fileURLToPath(import.meta.url);
  return here.endsWith('.ts') ? join(dirname(here), '../../../dist/workroom.js') : join(dirname(here), 'workroom.js');
}

async function* measureAll(
  workrooms: readonly Workroom[],
  jobs: Iterable<PhotoJob> | AsyncIterable<PhotoJob>,
  signal?: AbortSignal,
): AsyncGenerator<MeasureResult, void> {
  const source = Symbol.asyncIterator in jobs ? jobs[Symbol.asyncIterator]() : jobs[Symbol.iterator]();
  const stopped = signal === undefined ? undefined : whenAborted(signal);
  const running = new Map<Workroom, Promise<{ workroom: Workroom; result: MeasureResult }>>();
  const idle = [...workrooms];
  const promised = new Map<Workroom, PhotoJob>();
  let more = true;
  const fromSource = async (): Promise<PhotoJob | undefined> => {
    if (!more) return undefined;
    const next = await source.next();
    if (next.done !== true) return next.value;
    more = false;
    return undefined;
  };
  try {
    // At most one photo a workroom is under way and another one read, and no further result is made before the last one
    // was taken.
    while (signal?.aborted !== true) {
      while (idle.length > 0) {
        const workroom = idle.at(-1)!;
        const job = takePromised(promised, workroom) ?? (await fromSource()) ?? takePromised(promised);
        if (job === undefined) break;
        idle.pop();
        running.set(
          workroom,
          measureOne(workroom, job).then((result) => ({ workroom, result })),
        );
      }
      for (const workroom of running.keys()) {
        const job = promised.has(workroom) ? undefined : await fromSource();
        if (job === undefined) continue;
        promised.set(workroom, job);
        workroom.expect(job.path);
      }
      if (running.size === 0) return;
      const done = await Promise.race(
        stopped === undefined ? running.values() : [stopped.promise, ...running.values()],
      );
      if (done === undefined) return;
      running.delete(done.workroom);
      idle.push(done.workroom);
      yield done.result;
    }
  } finally {
    stopped?.forget();
    // Only left over after an abort, or when the taker stopped early: what is under way is given up.
    for (const workroom of running.keys()) workroom.close();
    await Promise.allSettled(running.values());
    await source.return?.();
  }
}

/** The photo that was promised to this workroom; to any, if none is named. */
function takePromised(promised: Map<Workroom, PhotoJob>, to = promised.keys().next().value): PhotoJob | undefined {
  if (to === undefined) return undefined;
  const job = promised.get(to);
  promised.delete(to);
  return job;
}

let lastRequest = 0;

async function measureOne(workroom: Workroom, job: PhotoJob): Promise<MeasureResult> {
  for (let attempt = 1; ; attempt++) {
    try {
      const reply = await workroom.ask({ kind: 'measure', id: ++lastRequest, ...job });
      if (reply.kind === 'measured') return { job, people: reply.people };
      if (reply.kind === 'failed') return { job, problem: reply.problem, message: reply.message };
      throw new WorkroomDied('it gave an answer nobody asked for', '');
    } catch (error) {
      const wasClosed = error instanceof WorkroomDied && error.wasClosed;
      // Once may be chance (memory ran out); twice is this photo.
      if (attempt === 2 || wasClosed) {
        return { job, problem: 'crashed', message: error instanceof Error ? error.message : String(error) };
      }
    }
  }
}

function whenAborted(signal: AbortSignal): { promise: Promise<undefined>; forget: () => void } {
  let onAbort = (): void => undefined;
  const promise = new Promise<undefined>((resolve) => {
    onAbort = () => {
      resolve(undefined);
    };
    signal.addEventListener('abort', onAbort, { once: true });
  });
  return {
    promise,
    forget: () => {
      signal.removeEventListener('abort', onAbort);
    },
  };
}
