import { fork, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { bundle } from '../../../src/tooling/bundle.mjs';
import type { RuntimeKind } from '../../../src/vision/runtime/runtime.ts';
import type { PhotoJob } from '../../../src/vision/workroom/pool.ts';
import type { Side } from './side.ts';

/** `count` processes at once that decode the photos and run the models on them, and do nothing else. */
export async function modelsAlone(runtime: RuntimeKind, count: number, jobs: readonly PhotoJob[]): Promise<Side> {
  const script = fileURLToPath(await bundle('tests/bench/support/models-alone-process.ts'));
  const paths = jobs.map((job) => job.path);
  const processes = Array.from({ length: count }, () => fork(script, [runtime, ...paths]));
  await Promise.all(processes.map(answer));
  return {
    round: async () => {
      const start = performance.now();
      // Whoever is idle takes the next photo, as in the workroom.
      const photos = paths.keys();
      await Promise.all(processes.map((process) => takeAll(process, photos)));
      return (1000 * paths.length) / (performance.now() - start);
    },
    close: () => {
      for (const process of processes) process.kill();
    },
  };
}

async function takeAll(process: ChildProcess, photos: Iterable<number>): Promise<void> {
  for (const photo of photos) {
    process.send(photo);
    await answer(process);
  }
}

async function answer(process: ChildProcess): Promise<void> {
  const stopped = new AbortController();
  const { signal } = stopped;
  await Promise.race([once(process, 'message', { signal }), once(process, 'exit', { signal }).then(failed)]).finally(
    () => {
      stopped.abort();
    },
  );
}

function failed(): never {
  throw new Error('A process of the bench ended before it answered.');
}
