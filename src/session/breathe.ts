import { setImmediate } from 'node:timers/promises';

/** Nobody waits noticeably longer than this for an interrupt to be heard. */
const MILLISECONDS_BETWEEN = 20;

let last = 0;

/**
 * Lets an interrupt come through in the middle of long work.
 * @throws the signal's reason when it has aborted
 */
export async function breathe(signal: AbortSignal | undefined): Promise<void> {
  const now = performance.now();
  if (now - last >= MILLISECONDS_BETWEEN) {
    await setImmediate();
    last = performance.now();
  }
  signal?.throwIfAborted();
}
