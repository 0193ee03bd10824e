import type { EdgeName } from '../geometry/shapes.ts';
import { EDGE_NAMES } from '../geometry/shapes.ts';
import type { Severity } from './rule.ts';

/** What a rule says about a frame. Where it stands in the manifest is added by session/. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly person?: number | undefined;
  readonly joint?: string | undefined;
  readonly edge?: EdgeName | undefined;
  /** In the unit of the rule's page, like `limit`. */
  readonly value?: number | undefined;
  readonly limit?: number | undefined;
  readonly possible?: boolean | undefined;
  /** What other rules know about the cause; it counts as no finding of its own. */
  readonly related?: readonly RelatedFact[] | undefined;
}

/** What a rule adds to another rule's finding. */
export interface RelatedFact {
  readonly rule: string;
  readonly message: string;
}

/** Whether an allow key, `rule` or `rule/joint`, covers something that a rule says of that joint. */
export function isCoveredBy(
  key: string,
  finding: { readonly rule: string; readonly joint?: string | undefined },
): boolean {
  if (!key.startsWith(finding.rule)) return false;
  const [rule, joint] = key.split('/');
  return rule === finding.rule && (joint === undefined || joint === finding.joint);
}

/** What a finding is about: the rule, and the place where that is broken. */
export interface FindingPlace {
  readonly rule: string;
  readonly person?: number | undefined;
  readonly joint?: string | undefined;
  readonly edge?: EdgeName | undefined;
}

/** Two findings say the same of two crops: the same rule about the same place of the same person at the same edge. */
export function identityOf({ rule, person, joint, edge }: FindingPlace): string {
  return `${rule} ${person ?? ''} ${joint ?? ''} ${edge ?? ''}`;
}

/** The key that allows just this finding: `rule/joint`, or `rule` where it is about no joint. */
export function allowKeyOf({ rule, joint }: Pick<Finding, 'rule' | 'joint'>): string {
  return joint === undefined ? rule : `${rule}/${joint}`;
}

/** The edges that a finding is about: its own one, or all where a crop goes past several. */
export function edgesInQuestion({ rule, edge }: Pick<Finding, 'rule' | 'edge'>): readonly EdgeName[] {
  if (edge) return [edge];
  return rule === 'outside-photo' ? EDGE_NAMES : [];
}
