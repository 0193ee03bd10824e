import type { LocatedFinding } from '../../session/located-finding.ts';
import { text } from './escape.ts';

/** Findings as a list: severity, sentence, rule; what is allowed with its reason. */
export function findingsList(findings: readonly LocatedFinding[]): string {
  return `<ul>${findings.map((finding) => `<li>${findingWords(finding)}</li>`).join('')}</ul>`;
}

export function findingWords({ severity, message, rule, allowed }: LocatedFinding): string {
  const said = `${text(message)} <code>${text(rule)}</code>`;
  if (allowed !== undefined) return `<span class="quiet">allowed</span> ${said} “${text(allowed)}”`;
  if (severity === 'info') return `<span class="quiet">hint</span> ${said}`;
  return `<span class="${severity}">${severity}</span> ${said}`;
}
