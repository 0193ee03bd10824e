import { setImmediate } from 'node:timers/promises';

/**
 * Lets an interrupt come through in the middle of long work.
 * @throws the signal's reason when it has aborted
 */
export async function breathe(signal: AbortSignal | undefined): Promise<void> {
  await setImmediate();
  signal?.throwIfAborted();
}
