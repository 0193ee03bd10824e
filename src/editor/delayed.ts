/**
 * Work that waits for a pause. A newer start gives up what is under way; there is never more than one at work.
 */
export class Delayed {
  readonly #pause: number;
  readonly #work: (signal: AbortSignal) => Promise<void>;
  readonly #onError: (error: unknown) => void;
  #timer: NodeJS.Timeout | undefined;
  #underWay: AbortController | undefined;
  #isDisposed = false;

  /** @param pause in milliseconds */
  constructor(
    pause: number,
    work: (signal: AbortSignal) => Promise<void>,
    onError: (error: unknown) => void = () => undefined,
  ) {
    this.#pause = pause;
    this.#work = work;
    this.#onError = onError;
  }

  /** Starts after the pause; again and again, and only the last start counts. */
  start(pause = this.#pause): void {
    if (this.#isDisposed) return;
    this.stop();
    this.#timer = setTimeout(() => void this.#run(), pause);
  }

  stop(): void {
    clearTimeout(this.#timer);
    this.#underWay?.abort();
    this.#underWay = undefined;
  }

  dispose(): void {
    this.#isDisposed = true;
    this.stop();
  }

  async #run(): Promise<void> {
    const mine = new AbortController();
    this.#underWay = mine;
    try {
      await this.#work(mine.signal);
    } catch (error) {
      if (!mine.signal.aborted) this.#onError(error);
    } finally {
      if (this.#underWay === mine) this.#underWay = undefined;
    }
  }
}
