import { edgesInQuestion } from '../../rules/finding.ts';
import type { Severity } from '../../rules/rule.ts';
import type { SheetFrame } from '../sheet-messages.ts';
import { element } from '../page/elements.ts';
import { factWords, rulesOf } from './frame-words.ts';
import { severityIcon, SEVERITY_WORDS } from '../page/severity-icon.ts';

/** Lines of rules under a picture, the last one for the rest. */
const RULE_LINES = 2;
/** Where nobody knows the photo's size yet. */
const USUAL_SHAPE = 2 / 3;

/** One frame on the sheet: its picture as it will be delivered, its name, what it is and what was found. */
export function drawCell(cell: HTMLElement, frame: SheetFrame, address: string | null | undefined): void {
  cell.title = frame.name;
  cell.replaceChildren(
    element('span', 'room', [pictureOf(frame, address)]),
    element('span', 'name', frame.name),
    element('span', 'facts', factWords(frame)),
    ...ruleLines(frame),
  );
}

/** @param address null when there is no picture to be had, undefined while it is waited for */
export function picture(shape: number | undefined, address: string | null | undefined): HTMLElement {
  const made = element('span', 'picture');
  setShape(made, shape ?? USUAL_SHAPE);
  if (address === null) made.append(element('span', 'without', 'no picture'));
  else if (address !== undefined) {
    const image = element('img', '');
    image.alt = '';
    image.decoding = 'async';
    image.draggable = false;
    image.src = address;
    made.append(image);
  }
  return made;
}

function pictureOf({ shape, findings }: SheetFrame, address: string | null | undefined): HTMLElement {
  const made = picture(shape, address);
  // Edges that hurt are marked where they hurt, the worst on top.
  for (const severity of ['warning', 'error'] as const) {
    const edges = findings.filter((finding) => finding.severity === severity).flatMap(edgesInQuestion);
    for (const edge of new Set(edges)) made.append(element('span', `hurt ${edge} ${severity}`));
  }
  return made;
}

/** As large as its room allows, without stretching. */
function setShape(made: HTMLElement, shape: number): void {
  made.style.aspectRatio = String(shape);
  if (shape >= 1) made.style.width = '100%';
  else made.style.height = '100%';
}

function ruleLines(frame: SheetFrame): HTMLElement[] {
  const rules = rulesOf(frame);
  if (rules.length === 0) return [element('span', 'spoken', 'nothing found')];
  const lines = rules.length > RULE_LINES ? rules.slice(0, RULE_LINES - 1) : rules;
  const rest = rules.slice(lines.length);
  return [
    ...lines.map(({ rule, severity, times }) => ruleLine(severity, times === 1 ? rule : `${rule} × ${times}`)),
    ...rest.slice(0, 1).map(({ severity }) => ruleLine(severity, `and ${rest.length} more`)),
  ];
}

function ruleLine(severity: Severity, words: string): HTMLElement {
  const spoken = element('span', 'spoken', `${SEVERITY_WORDS[severity]} `);
  return element('span', `rule ${severity}`, [severityIcon(severity), spoken, new Text(words)]);
}
