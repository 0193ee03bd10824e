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

/** Longest stretch of work without a pause, in milliseconds: nobody feels it who types meanwhile. */
const STRETCH = 10;

/** Says when work of many small steps should let others in. */
export class Pauses {
  readonly #signal: AbortSignal | undefined;
  #last = performance.now();

  constructor(signal: AbortSignal | undefined) {
    this.#signal = signal;
  }

  get isDue(): boolean {
    return performance.now() - this.#last >= STRETCH;
  }

  /** @throws the signal's reason when it has aborted */
  async take(): Promise<void> {
    await breathe(this.#signal);
    this.#last = performance.now();
  }
}
