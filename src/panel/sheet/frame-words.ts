import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { Severity } from '../../rules/rule.ts';
import type { SheetFrame } from '../sheet-messages.ts';
import { SEVERITIES } from '../page/severity-icon.ts';

/** `approved · half length · 2 people`: what is known, what is looked for most first. */
export function factWords({ length, people, isFinal }: SheetFrame): string {
  const facts = [
    isFinal ? 'approved' : undefined,
    length === undefined ? undefined : LENGTH_WORDS[length],
    people === undefined ? 'not measured' : peopleWords(people),
  ];
  return facts.filter((fact) => fact !== undefined).join(' · ');
}

export function peopleWords(people: number): string {
  return people === 0 ? 'nobody' : people === 1 ? '1 person' : `${people.toLocaleString('en')} people`;
}

/** Each rule once, with its worst severity and how often; the worst first. */
export interface RuleCount {
  readonly rule: string;
  readonly severity: Severity;
  readonly times: number;
}

export function rulesOf({ findings }: Pick<SheetFrame, 'findings'>): RuleCount[] {
  const byRule = new Map<string, RuleCount>();
  for (const { rule, severity } of findings) {
    const known = byRule.get(rule);
    const isWorse = known === undefined || SEVERITIES.indexOf(severity) < SEVERITIES.indexOf(known.severity);
    byRule.set(rule, { rule, severity: isWorse ? severity : known.severity, times: (known?.times ?? 0) + 1 });
  }
  return [...byRule.values()].sort(
    (first, second) => SEVERITIES.indexOf(first.severity) - SEVERITIES.indexOf(second.severity),
  );
}
