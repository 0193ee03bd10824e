import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { RuntimeKind } from '../../src/vision/runtime/runtime.ts';
import { createWorkroomPool, type PhotoJob } from '../../src/vision/workroom/pool.ts';
import { PROJECT_FOLDER } from '../truth/support/project.ts';

/** Photos a run with the WebAssembly runtime measures: it is several times slower. */
const FEW = 4;

interface Speed {
  readonly perSecond: number;
  /** Of the worker that used most, in megabytes; not known on every system. */
  readonly memory: number | undefined;
}

/** Photos a second through the workroom (built by `npm run build`), as a table. */
export async function measureSpeed(jobs: readonly PhotoJob[]): Promise<string> {
  const rows: string[] = [];
  for (const runtime of ['native', 'wasm'] as const) {
    for (const workers of [1, 2]) {
      const { perSecond, memory } = await speedOf(runtime, workers, runtime === 'native' ? jobs : jobs.slice(0, FEW));
      const peak = memory === undefined ? 'not known here' : `${memory.toFixed(0)} MB`;
      rows.push(`| ${runtime} | ${workers} | ${perSecond.toFixed(2)} | ${peak} |`);
    }
  }
  return [
    '| runtime | workers | photos a second | peak memory of a worker |',
    '| --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
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
