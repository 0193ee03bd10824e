import type { Frame } from '../manifest/manifest.ts';

/** A frame by its name, and the output whose crop of it was shown; absent: the main crop. */
export interface Shown {
  readonly name: string;
  readonly output: string | undefined;
}

/** Messages that are under way name a frame that was shown a moment ago. */
const REMEMBERED = 50;

/** Which frame the mat was shown, by the number of the message: the text may have changed since, and indices with it. */
export class ShownFrames {
  readonly #shown = new Map<number, Shown>();
  #last = 0;

  get last(): number {
    return this.#last;
  }

  /** @returns the number of the message that shows this frame */
  note({ name }: Pick<Frame, 'name'>, output: string | undefined): number {
    this.#last += 1;
    this.#shown.set(this.#last, { name, output });
    this.#shown.delete(this.#last - REMEMBERED);
    return this.#last;
  }

  of(revision: number): Shown | undefined {
    return this.#shown.get(revision);
  }
}
