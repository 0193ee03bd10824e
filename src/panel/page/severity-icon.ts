import type { Severity } from '../../rules/rule.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** In a box of 16 × 16: what the editor shows beside a problem, drawn by us. */
const SHAPES: Readonly<Record<Severity, string>> = {
  error: 'M8 1.5a6.5 6.5 0 1 1 0 13a6.5 6.5 0 0 1 0-13zM5.5 5.5l5 5M10.5 5.5l-5 5',
  warning: 'M8 1.8L15 14H1zM8 6v4M8 11.4v1.2',
  info: 'M8 1.5a6.5 6.5 0 1 1 0 13a6.5 6.5 0 0 1 0-13zM8 7v4.5M8 4.2v1.3',
};

export const SEVERITY_WORDS: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'hint' };

/** Severities from the worst to the least. */
export const SEVERITIES: readonly Severity[] = ['error', 'warning', 'info'];

/** A small picture of a severity, in the editor's colour for it; words beside it say the same. */
export function severityIcon(severity: Severity): SVGElement {
  return drawn(`icon ${severity}`, '0 0 16 16', SHAPES[severity]);
}

/** From what was to what would be. */
export function arrow(): SVGElement {
  return drawn('arrow', '0 0 18 12', 'M1 6h16M12 1l5 5l-5 5');
}

function drawn(className: string, box: string, line: string): SVGElement {
  const icon = document.createElementNS(SVG, 'svg');
  icon.setAttribute('class', className);
  icon.setAttribute('viewBox', box);
  icon.setAttribute('aria-hidden', 'true');
  const path = document.createElementNS(SVG, 'path');
  path.setAttribute('d', line);
  icon.append(path);
  return icon;
}
