import type { MatFrame, MatOutput } from '../messages.ts';
import { byId, element } from '../page/elements.ts';
import { SEVERITY_WORDS, severityIcon } from '../page/severity-icon.ts';

const MAIN = 'Main crop';

/** Which crop of the frame lies on the mat: the main one, or that of an output. Hidden where a session has no outputs. */
export class OutputBar {
  readonly #bar = byId('outputs');
  readonly #choose: (output: string | undefined) => void;
  #shown = '';

  /** @param choose told the output's name; undefined: the main crop */
  constructor(choose: (output: string | undefined) => void) {
    this.#choose = choose;
  }

  show({ output, outputs }: Pick<MatFrame, 'output' | 'outputs'>): void {
    const shown = JSON.stringify([output, outputs]);
    // A button in use stays the same button.
    if (shown === this.#shown) return;
    this.#shown = shown;
    const place = [...this.#bar.children].indexOf(document.activeElement!);
    this.#bar.hidden = outputs.length === 0;
    const buttons = [this.#button(undefined, output), ...outputs.map((each) => this.#button(each, output))];
    this.#bar.replaceChildren(...buttons);
    buttons[place]?.focus({ preventScroll: true });
  }

  #button(each: MatOutput | undefined, present: string | undefined): HTMLButtonElement {
    const worst = each?.worst;
    const sign = worst ? [severityIcon(worst), element('span', 'spoken', `, ${SEVERITY_WORDS[worst]}`)] : [];
    const button = element('button', '', [new Text(each?.id ?? MAIN), ...sign]);
    button.type = 'button';
    button.title = each ? `The crop for ${each.id}: moved here, it becomes this frame’s own` : 'The crop of the frame';
    button.setAttribute('aria-pressed', String(each?.id === present));
    button.addEventListener('click', () => {
      this.#choose(each?.id);
    });
    return button;
  }
}
