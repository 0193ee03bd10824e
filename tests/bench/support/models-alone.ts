import { fork, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { bundle } from '../../../src/tooling/bundle.mjs';
import type { RuntimeKind } from '../../../src/vision/runtime/runtime.ts';
import type { PhotoJob } from '../../../src/vision/workroom/pool.ts';

/** Photos a second that are decoded and given to the models by `count` processes at once, which do nothing else. */
export async function modelsAlone(runtime: RuntimeKind, count: number, jobs: readonly PhotoJob[]): Promise<number> {
  const script = fileURLToPath(await bundle('tests/bench/support/models-alone-process.ts'));
  const processes = Array.from({ length: count }, (_, first) => {
    const paths = jobs.filter((_job, index) => index % count === first).map((job) => job.path);
    return fork(script, [runtime, ...paths]);
  });
  await Promise.all(processes.map(answer));
  const start = performance.now();
  for (const process of processes) process.send('begin');
  await Promise.all(processes.map(answer));
  return (1000 * jobs.length) / (performance.now() - start);
}

async function answer(process: ChildProcess): Promise<void> {
  await Promise.race([once(process, 'message'), once(process, 'exit').then(failed)]);
}

function failed(): never {
  throw new Error('A process of the bench ended before it answered.');
}
