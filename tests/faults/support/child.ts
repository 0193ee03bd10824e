import { spawn } from 'node:child_process';
import { existsSync, readFileSync, watch } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';

const COMMAND_LINE = join(import.meta.dirname, '../../../dist/selvedge.js');

/** When a child is killed: so long after its start, or with the n-th sign of life of a name in its folder. */
export type Moment =
  { readonly milliseconds: number } | { readonly folder: string; readonly name: RegExp; readonly nth: number };

export interface ChildEnd {
  readonly code: number | null;
  readonly signal: string | null;
  readonly said: string;
  readonly milliseconds: number;
  /** Processes that it had started. */
  readonly children: readonly number[];
}

/** Runs the built command line, and kills it (SIGKILL: it cannot clean up) at that moment if it still runs. */
export async function runChild(argv: readonly string[], moment?: Moment): Promise<ChildEnd> {
  const began = Date.now();
  const child = spawn(process.execPath, [COMMAND_LINE, ...argv], { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (text: string) => (said += text));
  let children: readonly number[] = [];
  const kill = (): void => {
    children = childrenOf(child.pid!);
    child.kill('SIGKILL');
  };
  const forget = moment === undefined ? () => undefined : arm(moment, kill);
  const [code, signal] = await new Promise<[number | null, string | null]>((resolve) => {
    child.once('close', (...end: [number | null, string | null]) => {
      resolve(end);
    });
  });
  forget();
  return { code, signal, said, milliseconds: Date.now() - began, children };
}

function arm(moment: Moment, kill: () => void): () => void {
  if ('milliseconds' in moment) {
    const timer = setTimeout(kill, moment.milliseconds);
    return () => {
      clearTimeout(timer);
    };
  }
  let seen = 0;
  const watcher = watch(moment.folder, (_, name) => {
    if (name === null || !moment.name.test(name)) return;
    seen += 1;
    if (seen === moment.nth) kill();
  });
  return () => {
    watcher.close();
  };
}

/** Only where /proc tells (Linux); else none. */
function childrenOf(process: number): number[] {
  const path = `/proc/${process}/task/${process}/children`;
  if (!existsSync(path)) return [];
  return readFileSync(path, 'utf8').split(' ').filter(Boolean).map(Number);
}

/** Waits until these processes have ended of themselves. */
export async function haveEnded(processes: readonly number[], seconds: number): Promise<boolean> {
  const isThere = (id: number): boolean => existsSync(`/proc/${id}`) && !/^State:\s+Z/m.test(statusOf(id));
  for (let waited = 0; waited < seconds * 10; waited++) {
    if (!processes.some(isThere)) return true;
    await sleep(100);
  }
  return false;
}

function statusOf(id: number): string {
  try {
    return readFileSync(`/proc/${id}/status`, 'utf8');
  } catch {
    return 'State: Z';
  }
}
