import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { decodePhoto } from '../../src/photos/decode.ts';
import { LONG_EDGE, measurePixels } from '../../src/vision/measure.ts';
import { MODELS_FOLDER } from '../truth/support/measured.ts';
import { ModelSet } from '../../src/vision/models/model-set.ts';
import { chooseRuntime } from '../../src/vision/runtime/choose.ts';
import type { LoadedModel, Runtime, RuntimeKind, TensorValue } from '../../src/vision/runtime/runtime.ts';
import { createWorkroomPool, type PhotoJob } from '../../src/vision/workroom/pool.ts';
import { PROJECT_FOLDER } from '../truth/support/project.ts';

/** Photos a run with the WebAssembly runtime measures: it is several times slower. */
const FEW = 4;
/** Photos of which the inputs of all models fit into memory. */
const SOME = 12;

interface Speed {
  readonly perSecond: number;
  /** Of the worker that used most, in megabytes; not known on every system. */
  readonly memory: number | undefined;
}

/**
 * Photos a second through the workroom (built by `npm run build`), as a table, beside what decoding the same photos and
 * running the same models on the same inputs takes alone in this process.
 */
export async function measureSpeed(jobs: readonly PhotoJob[]): Promise<string> {
  const rows: string[] = [];
  for (const runtime of ['native', 'wasm'] as const) {
    const some = jobs.slice(0, runtime === 'native' ? SOME : FEW);
    const alone = await Recording.of(await chooseRuntime(runtime), some);
    for (const workers of [1, 2]) {
      const least = await alone.perSecond(workers);
      const { perSecond, memory } = await speedOf(runtime, workers, some);
      const peak = memory === undefined ? 'not known here' : `${memory.toFixed(0)} MB`;
      const share = ((100 * perSecond) / least).toFixed(0);
      rows.push(`| ${runtime} | ${workers} | ${perSecond.toFixed(2)} | ${least.toFixed(2)} | ${share} % | ${peak} |`);
    }
  }
  return [
    '| runtime | workers | photos a second | decoding and models alone | share | peak memory of a worker |',
    '| --- | --- | --- | --- | --- | --- |',
    ...rows,
    '',
    'The WebAssembly runtime computes on the main thread, so two workers are held against twice what one does alone.',
  ].join('\n');
}

interface Call {
  readonly model: LoadedModel;
  readonly input: TensorValue;
}

/** What models were asked for each photo, to be asked again without anything around it. */
class Recording {
  readonly #kind: RuntimeKind;
  readonly #jobs: readonly PhotoJob[];
  readonly #calls: readonly (readonly Call[])[];

  private constructor(kind: RuntimeKind, jobs: readonly PhotoJob[], calls: readonly (readonly Call[])[]) {
    this.#kind = kind;
    this.#jobs = jobs;
    this.#calls = calls;
  }

  static async of(runtime: Runtime, jobs: readonly PhotoJob[]): Promise<Recording> {
    let calls: Call[] = [];
    const recorder: Runtime = {
      kind: runtime.kind,
      load: async (bytes) => {
        const model = await runtime.load(bytes);
        return {
          run: (input) => {
            calls.push({ model, input });
            return model.run(input);
          },
          release: () => model.release(),
        };
      },
    };
    const models = new ModelSet(recorder, MODELS_FOLDER);
    const all: Call[][] = [];
    for (const { path } of jobs) {
      calls = [];
      const { pixels } = await decodePhoto(path, LONG_EDGE);
      await measurePixels(pixels, models);
      all.push(calls);
    }
    return new Recording(runtime.kind, jobs, all);
  }

  async perSecond(workers: number): Promise<number> {
    if (this.#kind === 'wasm' && workers > 1) return workers * (await this.perSecond(1));
    const start = performance.now();
    await Promise.all(Array.from({ length: workers }, (_, first) => this.#replay(first, workers)));
    return (1000 * this.#jobs.length) / (performance.now() - start);
  }

  async #replay(first: number, step: number): Promise<void> {
    for (let index = first; index < this.#jobs.length; index += step) {
      await decodePhoto(this.#jobs[index]!.path, LONG_EDGE);
      for (const { model, input } of this.#calls[index]!) await model.run(input);
    }
  }
}

async function speedOf(runtime: RuntimeKind, workers: number, jobs: readonly PhotoJob[]): Promise<Speed> {
  const script = join(PROJECT_FOLDER, 'dist', 'workroom.js');
  const pool = createWorkroomPool({ version: 'bench', workers, runtime, script });
  let memory: number | undefined;
  try {
    // The first photos load the models; they are not part of the time.
    await drain(pool.measure(jobs.slice(0, workers)));
    const start = performance.now();
    await drain(pool.measure(jobs));
    const seconds = (performance.now() - start) / 1000;
    for (const id of pool.processIds()) memory = largerOf(memory, await peakMemory(id));
    return { perSecond: jobs.length / seconds, memory };
  } finally {
    pool.close();
  }
}

async function drain(results: AsyncIterable<object>): Promise<void> {
  for await (const result of results) {
    if ('message' in result) throw new Error(`A photo could not be measured: ${String(result.message)}`);
  }
}

function largerOf(first: number | undefined, second: number | undefined): number | undefined {
  return first === undefined || second === undefined ? (first ?? second) : Math.max(first, second);
}

/** The most memory a process has held (VmHWM, proc(5)); undefined where there is no such file. */
async function peakMemory(processId: number): Promise<number | undefined> {
  try {
    const status = await readFile(`/proc/${processId}/status`, 'utf8');
    const kilobytes = /^VmHWM:\s+(\d+) kB$/m.exec(status)?.[1];
    return kilobytes === undefined ? undefined : Number(kilobytes) / 1024;
  } catch {
    return undefined;
  }
}
