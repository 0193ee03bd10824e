import type { Frame } from '../manifest/manifest.ts';

/** Messages that are under way name a frame that was shown a moment ago. */
const REMEMBERED = 50;

/** Which frame the mat was shown, by the number of the message: the text may have changed since, and indices with it. */
export class ShownFrames {
  readonly #names = new Map<number, string>();
  #last = 0;

  get last(): number {
    return this.#last;
  }

  /** @returns the number of the message that shows this frame */
  note({ name }: Pick<Frame, 'name'>): number {
    this.#last += 1;
    this.#names.set(this.#last, name);
    this.#names.delete(this.#last - REMEMBERED);
    return this.#last;
  }

  nameOf(revision: number): string | undefined {
    return this.#names.get(revision);
  }
}
