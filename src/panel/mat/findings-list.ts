import type { Finding } from '../../rules/finding.ts';

const WORDS = { error: 'error', warning: 'warning', info: 'hint' } as const;

/** Writes what is found as a list; text only, whatever it says. */
export function listFindings(
  list: HTMLElement,
  findings: readonly Pick<Finding, 'rule' | 'severity' | 'message'>[],
  whenNone: string,
): void {
  const rows = findings.map(({ severity, message, rule }) => {
    const row = document.createElement('li');
    row.className = severity;
    const kind = document.createElement('span');
    kind.className = 'severity';
    kind.textContent = WORDS[severity];
    const name = document.createElement('span');
    name.className = 'rule';
    name.textContent = rule;
    row.append(kind, ` ${message} `, name);
    return row;
  });
  if (rows.length === 0) {
    const row = document.createElement('li');
    row.textContent = whenNone;
    rows.push(row);
  }
  list.replaceChildren(...rows);
}

/** How many there are of each kind. */
export function countWords(findings: readonly Pick<Finding, 'severity'>[]): string {
  const counts = (['error', 'warning', 'info'] as const).map((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? '' : `${count} ${WORDS[severity]}${count === 1 ? '' : 's'}`;
  });
  return counts.filter((words) => words !== '').join(', ') || 'nothing found';
}
