import { identityOf } from './finding.ts';
import type { Limit, Rule, Severity } from './rule.ts';

/** A limit with the rule it belongs to and the severity it has in this session. */
export interface ActiveLimit {
  readonly rule: Rule;
  readonly severity: Severity;
  readonly limit: Limit;
}

/** The limit as it counts where its rule has this severity. */
export function activeLimit(rule: Rule, severity: Severity, limit: Limit): ActiveLimit {
  return { rule, severity: limit.presses && severity === 'info' ? 'warning' : severity, limit };
}

/** What the finding of this limit says is the same place: see `identityOf`. */
export function identityOfLimit({ rule, limit }: ActiveLimit): string {
  const { person, joint, edge } = limit;
  return identityOf({ rule: rule.id, person, joint, edge });
}
