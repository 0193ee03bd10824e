import type { MatFrame } from '../messages.ts';
import { byId } from '../page/elements.ts';

/** What the editor has to tell of a frame. It belongs to the state it was said of, and goes when that is another. */
export class MatNotice {
  readonly #element = byId('notice');
  #state = '';

  show(text: string): void {
    this.#element.textContent = text;
  }

  showFrame({ name, output, input, allow, isFinal, aboutFiles }: MatFrame): void {
    const state = JSON.stringify([name, output, input, allow, isFinal, aboutFiles]);
    if (state === this.#state) return;
    this.#state = state;
    this.#element.textContent = '';
  }
}
