import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { RuntimeKind } from '../../../src/vision/runtime/runtime.ts';
import { createWorkroomPool, type PhotoJob } from '../../../src/vision/workroom/pool.ts';
import { PROJECT_FOLDER } from '../../truth/support/project.ts';
import type { Side } from './side.ts';

export interface WorkroomSide extends Side {
  /** The most memory a worker has held so far, in megabytes; not known on every system. */
  peakMemory(): Promise<number | undefined>;
}

/** The product's own workroom with so many workers. It has measured the photos once when this returns. */
export async function workroomSide(
  runtime: RuntimeKind,
  workers: number,
  jobs: readonly PhotoJob[],
): Promise<WorkroomSide> {
  const script = join(PROJECT_FOLDER, 'dist', 'workroom.js');
  const pool = createWorkroomPool({ version: 'bench', workers, runtime, script });
  const measureAll = async (): Promise<void> => {
    for await (const result of pool.measure(jobs)) {
      if ('message' in result) throw new Error(`A photo could not be measured: ${result.message}`);
    }
  };
  await measureAll();
  return {
    round: async () => {
      const start = performance.now();
      await measureAll();
      return (1000 * jobs.length) / (performance.now() - start);
    },
    peakMemory: async () => {
      const peaks = await Promise.all(pool.processIds().map(peakMemory));
      return peaks.some((peak) => peak === undefined) ? undefined : Math.max(...(peaks as number[]));
    },
    close: () => {
      pool.close();
    },
  };
}

/** The most memory a process has held (VmHWM, proc(5)), in megabytes; undefined where there is no such file. */
async function peakMemory(processId: number): Promise<number | undefined> {
  try {
    const status = await readFile(`/proc/${processId}/status`, 'utf8');
    const kilobytes = /^VmHWM:\s+(\d+) kB$/m.exec(status)?.[1];
    return kilobytes === undefined ? undefined : Number(kilobytes) / 1024;
  } catch {
    return undefined;
  }
}
