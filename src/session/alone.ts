import { open, readFile, rm, stat } from 'node:fs/promises';
import { hostname } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';

/** Milliseconds between two looks, and until a lock that never changes belongs to nobody. */
const PAUSE = 15;
const PATIENCE = 10_000;

/**
 * Reads, changes and writes a file while no other process of ours does, on this machine or another one that shares the
 * folder: else of two that add to it at once the later one would take away what the earlier one added. The lock is a file
 * beside it, named like the leftovers of a run that was killed, and cleared away like them.
 */
export async function alone<Result>(path: string, work: () => Promise<Result>): Promise<Result> {
  const lock = `${path}.0`;
  const isHeld = await take(lock);
  try {
    return await work();
  } finally {
    if (isHeld) await rm(lock, { force: true }).catch(() => undefined);
  }
}

/** False where no lock can be made; what cannot be written there is told by whoever writes. */
async function take(lock: string): Promise<boolean> {
  let seen = '';
  let since = performance.now();
  for (;;) {
    try {
      const file = await open(lock, 'wx');
      // A full disk still has room for the name, and the name is the lock.
      await file.writeFile(`${hostname()} ${process.pid}`).catch(() => undefined);
      await file.close();
      return true;
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) return false;
    }
    const now = await stateOf(lock);
    if (now !== seen) {
      seen = now;
      since = performance.now();
    } else if (performance.now() - since > PATIENCE || (await isOfTheDead(lock))) {
      await rm(lock, { force: true }).catch(() => undefined);
      seen = '';
    }
    await sleep(PAUSE * (1 + Math.random()));
  }
}

/** Clocks of two machines differ: only whether it is still the same lock counts. */
async function stateOf(lock: string): Promise<string> {
  const found = await stat(lock).catch(() => undefined);
  return found ? `${found.ino} ${found.mtimeMs}` : '';
}

/** Whether a process of this machine had it and was killed. */
async function isOfTheDead(lock: string): Promise<boolean> {
  const [host, id] = (await readFile(lock, 'utf8').catch(() => '')).split(' ');
  if (host !== hostname() || !id) return false;
  try {
    process.kill(Number(id), 0);
    return false;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'ESRCH';
  }
}
