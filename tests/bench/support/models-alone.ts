import { fork, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { build } from 'esbuild';
import type { RuntimeKind } from '../../../src/vision/runtime/runtime.ts';
import type { PhotoJob } from '../../../src/vision/workroom/pool.ts';
import { PROJECT_FOLDER } from '../../truth/support/project.ts';

/** Photos a second that are decoded and given to the models by `count` processes at once, which do nothing else. */
export async function modelsAlone(runtime: RuntimeKind, count: number, jobs: readonly PhotoJob[]): Promise<number> {
  const script = await bundled();
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

async function bundled(): Promise<string> {
  const outfile = join(PROJECT_FOLDER, 'dist', 'tooling', 'models-alone-process.js');
  await build({
    absWorkingDir: PROJECT_FOLDER,
    entryPoints: ['tests/bench/support/models-alone-process.ts'],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20.9',
    format: 'esm',
    packages: 'external',
    logLevel: 'warning',
  });
  return outfile;
}
