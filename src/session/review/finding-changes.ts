import { identityOf } from '../../rules/finding.ts';
import { isAboutCrop } from '../asked.ts';
import type { LocatedFinding } from '../located-finding.ts';

/** What a change did to the findings of a frame. */
export interface FindingChanges {
  readonly gone: readonly LocatedFinding[];
  readonly fresh: readonly LocatedFinding[];
  /** Still found, but with another severity, or allowed now, or no longer. */
  readonly judgedOtherwise: readonly { readonly then: LocatedFinding; readonly now: LocatedFinding }[];
  readonly kept: readonly LocatedFinding[];
}

/** @param then findings, as `now` */
export function findingChanges(then: readonly LocatedFinding[], now: readonly LocatedFinding[]): FindingChanges {
  const waiting = new Map<string, LocatedFinding[]>();
  for (const finding of then) waiting.set(nameOf(finding), [...(waiting.get(nameOf(finding)) ?? []), finding]);
  const pairs = now.map((finding) => ({ now: finding, then: waiting.get(nameOf(finding))?.shift() }));
  const both = pairs.flatMap((pair) => (pair.then ? [{ then: pair.then, now: pair.now }] : []));
  return {
    gone: [...waiting.values()].flat(),
    fresh: pairs.filter((pair) => pair.then === undefined).map((pair) => pair.now),
    judgedOtherwise: both.filter((pair) => !isSame(pair.then, pair.now)),
    kept: both.filter((pair) => isSame(pair.then, pair.now)).map((pair) => pair.now),
  };
}

function isSame(then: LocatedFinding, now: LocatedFinding): boolean {
  return then.severity === now.severity && then.allowed === now.allowed;
}

/** What is said of a file has no place in a body: its sentence tells one from another. */
function nameOf(finding: LocatedFinding): string {
  return isAboutCrop(finding) ? `${finding.output ?? ''} ${identityOf(finding)}` : `${finding.rule} ${finding.message}`;
}
