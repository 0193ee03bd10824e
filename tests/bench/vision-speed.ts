import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { decodePhoto } from '../../src/photos/decode.ts';
import { LONG_EDGE, measurePixels } from '../../src/vision/measure.ts';
import type { RuntimeKind } from '../../src/vision/runtime/runtime.ts';
import { createWorkroomPool, type PhotoJob } from '../../src/vision/workroom/pool.ts';
import { PROJECT_FOLDER } from '../truth/support/project.ts';
import { demoPhotos, type LabelledPhoto } from '../truth/support/labels.ts';
import { loadModels } from '../truth/support/measured.ts';
import { hasShared } from '../truth/support/shared-folder.ts';
import { percent } from './percent.ts';
import { modelsAlone } from './support/models-alone.ts';

/** Photos a run with the WebAssembly runtime measures: it is several times slower. */
const FEW = 6;
/** Photos of which the inputs of all models fit into memory. */
const SOME = 12;

interface Speed {
  readonly perSecond: number;
  /** Of the worker that used most, in megabytes; not known on every system. */
  readonly memory: number | undefined;
}

/** Measures how fast photos are measured and gives the section for docs/benchmarks.md. */
export async function run(): Promise<string> {
  const title = '## Speed of measuring';
  if (!hasShared('demo-photos', 'bench of measuring')) return `${title}\n\nNot run: the photos are not there.\n`;
  const photos = demoPhotos();
  const rows = await throughput(photos.map(({ path, name }) => ({ path, photo: name })));
  return [
    title,
    '',
    await timeParts(photos.slice(0, 8)),
    '',
    'Photos a second through the workroom, beside decoding the same photos and running the same models on the same inputs',
    'alone: as many processes as workers, at the same time, that do nothing else.',
    '',
    '| runtime | workers | photos a second | decoding and models alone | share | goal | peak memory of a worker | goal |',
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

async function throughput(jobs: readonly PhotoJob[]): Promise<string[]> {
  const rows: string[] = [];
  for (const runtime of ['native', 'wasm'] as const) {
    const some = jobs.slice(0, runtime === 'native' ? SOME : FEW);
    for (const workers of [1, 2]) {
      const alone = await modelsAlone(runtime, workers, some);
      const { perSecond, memory } = await speedOf(runtime, workers, some);
      const peak = memory === undefined ? 'not known here' : `${memory.toFixed(0)} MB`;
      const share = percent(perSecond / alone);
      rows.push(
        `| ${runtime} | ${workers} | ${perSecond.toFixed(2)} | ${alone.toFixed(2)} | **${share}** | at least 90 % | ${peak} | under 600 MB |`,
      );
    }
  }
  return rows;
}

/** What decoding and measuring cost one after the other in one process. */
async function timeParts(photos: readonly LabelledPhoto[]): Promise<string> {
  const models = await loadModels();
  await models.loadAll();
  let decoding = 0;
  let measuring = 0;
  for (const { path } of photos) {
    const start = process.cpuUsage();
    const { pixels } = await decodePhoto(path, LONG_EDGE);
    const decoded = process.cpuUsage(start);
    await measurePixels(pixels, models);
    const all = process.cpuUsage(start);
    decoding += (decoded.user + decoded.system) / 1000;
    measuring += (all.user + all.system - decoded.user - decoded.system) / 1000;
  }
  await models.release();
  const each = (milliseconds: number): string => (milliseconds / photos.length).toFixed(0);
  return `CPU milliseconds a photo, one process, native: decoding ${each(decoding)}, models and the rest ${each(measuring)}.`;
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
