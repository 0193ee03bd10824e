import type { SheetFrame } from '../sheet-messages.ts';
import { counted, element } from '../page/elements.ts';
import { severityIcon, SEVERITY_WORDS } from '../page/severity-icon.ts';

/** What is found about the active frame, in whole sentences; of several that are selected, how much that is. */
export class FoundList {
  readonly #list: HTMLElement;
  #shown: readonly SheetFrame[] | undefined;

  constructor(list: HTMLElement) {
    this.#list = list;
  }

  show(active: SheetFrame | undefined, selected: readonly SheetFrame[]): void {
    const frames = selected.length > 1 ? selected : active ? [active] : [];
    const isSame =
      frames.length === this.#shown?.length && frames.every((frame, place) => frame === this.#shown?.[place]);
    if (isSame) return;
    this.#shown = frames;
    const [frame] = frames;
    const label =
      frames.length > 1 ? 'Findings of the selected frames' : frame ? `Findings of ${frame.name}` : 'Findings';
    this.#list.setAttribute('aria-label', label);
    this.#list.replaceChildren(...(frames.length > 1 ? [sumOf(frames)] : linesOf(frame)));
  }
}

function linesOf(frame: SheetFrame | undefined): HTMLElement[] {
  if (!frame) return [element('li', '', 'No frame is shown.')];
  if (frame.findings.length === 0) return [element('li', '', `${frame.name}: nothing is found.`)];
  return frame.findings.map(({ severity, message, rule }) => {
    const kind = element('span', 'spoken', SEVERITY_WORDS[severity]);
    const name = element('span', 'facts', rule);
    return element('li', severity, [severityIcon(severity), kind, element('span', '', message), name]);
  });
}

/** `20 selected: 7 errors, 48 warnings` */
function sumOf(frames: readonly SheetFrame[]): HTMLElement {
  const findings = frames.flatMap((frame) => frame.findings);
  const counts = (['error', 'warning'] as const)
    .map((severity) => [findings.filter((finding) => finding.severity === severity).length, severity] as const)
    .filter(([number]) => number > 0)
    .map(([number, severity]) => counted(number, SEVERITY_WORDS[severity]));
  const words = counts.length === 0 ? 'no errors or warnings' : counts.join(', ');
  return element('li', '', `${frames.length.toLocaleString('en')} selected: ${words}`);
}
