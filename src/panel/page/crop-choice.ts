import { byId } from './elements.ts';

/** An output as a choice names it. */
export interface OfferedOutput {
  readonly id: string;
  readonly words: string;
}

/** Which crops are shown: the main ones, or those of an output. Hidden where a session has no outputs. */
export class CropChoice {
  readonly #box: HTMLElement;
  readonly #list: HTMLSelectElement;

  /**
   * @param id of the list; the box around it is called `id-box`
   * @param choose told the output's name; undefined: the main crop
   */
  constructor(id: string, choose: (output: string | undefined) => void) {
    this.#box = byId(`${id}-box`);
    this.#list = byId(id) as HTMLSelectElement;
    this.#list.addEventListener('change', () => {
      choose(this.output);
    });
  }

  get output(): string | undefined {
    return this.#list.value === '' ? undefined : this.#list.value;
  }

  show(outputs: readonly OfferedOutput[], shown = '', title = ''): void {
    this.#box.hidden = outputs.length === 0;
    const offered = [{ id: '', words: 'main' }, ...outputs];
    const present = [...this.#list.options].map(({ label, value }) => ({ id: value, words: label }));
    // A choice that is open stays the same choice.
    if (JSON.stringify(present) !== JSON.stringify(offered)) {
      this.#list.replaceChildren(...offered.map(({ id, words }) => new Option(words, id)));
    }
    this.#list.value = shown;
    this.#list.title = title;
  }
}
