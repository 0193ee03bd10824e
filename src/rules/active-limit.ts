import type { Limit, Rule, Severity } from './rule.ts';

/** A limit with the rule it belongs to and the severity it has in this session. */
export interface ActiveLimit {
  readonly rule: Rule;
  readonly severity: Severity;
  readonly limit: Limit;
}
