import type { Finding } from '../rules/finding.ts';
import { RULES } from '../rules/index.ts';
import type { LocatedFinding } from './located-finding.ts';
import { isPressing } from './located-finding.ts';

/** What keeps a frame from being checked as it should be: said whatever rules are asked for. */
const PREVENTING: ReadonlySet<string> = new Set(['manifest', 'photo-missing', 'not-measured', 'stale-measure']);

const OF_CROPS: ReadonlySet<string> = new Set(RULES.map(({ id }) => id));

/** Whether it says that the frame cannot be judged as it should be, or not at all. */
export function isPreventing(finding: LocatedFinding): boolean {
  return PREVENTING.has(finding.rule) && isPressing(finding);
}

/** Whether another crop can change it; the other findings are about files. */
export function isAboutCrop({ rule }: Finding): boolean {
  return OF_CROPS.has(rule);
}

/** Whether another main crop can change it, and `fix` may try: the crops of outputs follow the main one. */
export function isAboutMainCrop(finding: LocatedFinding): boolean {
  return finding.output === undefined && isAboutCrop(finding);
}

/** What `--rule` lets through: findings of these rules (absent or none: of all), and what kept the rules from speaking. */
export function askedFor(rules: readonly string[] | undefined): (finding: LocatedFinding) => boolean {
  if (rules === undefined || rules.length === 0) return () => true;
  return (finding) => isNamedBy(rules, finding) || isPreventing(finding);
}

/** Whether one of these rules says the finding, or something about its cause. */
export function isNamedBy(rules: readonly string[], { rule, related = [] }: Finding): boolean {
  return rules.includes(rule) || related.some((fact) => rules.includes(fact.rule));
}
