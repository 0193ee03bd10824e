import type { SheetFrame } from '../sheet-messages.ts';
import { element } from '../page/elements.ts';
import { severityIcon, SEVERITY_WORDS } from '../page/severity-icon.ts';

/** What is found about the active frame, in whole sentences. */
export class FoundList {
  readonly #list: HTMLElement;
  #shown: SheetFrame | undefined;

  constructor(list: HTMLElement) {
    this.#list = list;
  }

  show(frame: SheetFrame | undefined): void {
    if (frame === this.#shown) return;
    this.#shown = frame;
    this.#list.setAttribute('aria-label', frame ? `Findings of ${frame.name}` : 'Findings');
    const lines = (frame?.findings ?? []).map(({ severity, message, rule }) => {
      const kind = element('span', 'spoken', SEVERITY_WORDS[severity]);
      const name = element('span', 'facts', rule);
      return element('li', severity, [severityIcon(severity), kind, element('span', '', message), name]);
    });
    const none = frame ? `${frame.name}: nothing is found.` : 'No frame is shown.';
    this.#list.replaceChildren(...(lines.length > 0 ? lines : [element('li', '', none)]));
  }
}
