import type { MatFrame, MatOutput } from '../messages.ts';
import { byId } from '../page/elements.ts';
import { SEVERITY_WORDS } from '../page/severity-icon.ts';

/** Which crop of the frame lies on the mat: the main one, or that of an output. Hidden where a session has no outputs. */
export class OutputChoice {
  readonly #box = byId('output-box');
  readonly #choice = byId('output') as HTMLSelectElement;

  /** @param choose told the output's name; undefined: the main crop */
  constructor(choose: (output: string | undefined) => void) {
    this.#choice.addEventListener('change', () => {
      choose(this.#choice.value === '' ? undefined : this.#choice.value);
    });
  }

  show({ output = '', outputs }: Pick<MatFrame, 'output' | 'outputs'>): void {
    this.#box.hidden = outputs.length === 0;
    const offered = [{ words: 'main', id: '' }, ...outputs.map((each) => ({ words: wordsOf(each), id: each.id }))];
    const present = [...this.#choice.options].map(({ label, value }) => ({ words: label, id: value }));
    // A choice that is open stays the same choice.
    if (JSON.stringify(present) !== JSON.stringify(offered)) {
      this.#choice.replaceChildren(...offered.map(({ words, id }) => new Option(words, id)));
    }
    this.#choice.value = output;
    this.#choice.title =
      output === '' ? 'The frame’s main crop' : `The crop for ${output}; moved here, it is the frame’s own`;
  }
}

/** `album, own crop, warning` */
function wordsOf({ id, isOwn, worst }: MatOutput): string {
  return [id, isOwn && 'own crop', worst && SEVERITY_WORDS[worst]]
    .filter((words) => typeof words === 'string')
    .join(', ');
}
