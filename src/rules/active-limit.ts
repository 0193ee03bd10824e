import type { Limit, Rule, Severity } from './rule.ts';

/** A limit with the rule it belongs to and the severity it has in this session. */
export interface ActiveLimit {
  readonly rule: Rule;
  readonly severity: Severity;
  readonly limit: Limit;
}

/** What the finding of this limit says is the same place: see `identityOf`. */
export function identityOfLimit({ rule, limit }: ActiveLimit): string {
  return [rule.id, limit.person ?? '', limit.joint ?? '', limit.edge ?? ''].join(' ');
}
