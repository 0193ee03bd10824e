import type { Finding } from './finding.ts';
import { identityOf } from './finding.ts';

/** Of several rules about the same end of the same limb at the same edge, the one that says most speaks. */
const SPEAKS_FIRST: ReadonlyMap<string, number> = new Map(
  ['face-cut', 'joint-cut', 'hand-cut', 'foot-cut', 'edge-along-body', 'edge-along-limb', 'edge-clearance'].map(
    (rule, index) => [rule, index],
  ),
);

/**
 * Each place once: a wrist that is cut is not also a hand that is cut, and a body that an edge cuts is not also one
 * that the edge only touches.
 */
export function withoutRepetition(findings: readonly Finding[]): readonly Finding[] {
  const rivals = findings.filter((finding) => findings.some((other) => other !== finding && isBeside(other, finding)));
  if (rivals.length === 0) return findings;
  const seen = new Set<string>();
  const left = new Set<Finding>();
  for (const { finding, rank } of inOrder(rivals)) {
    const keys = keysOf(finding);
    if (keys.some((key) => seen.has(key))) {
      left.add(finding);
      continue;
    }
    for (const key of keys) seen.add(key);
    if (finding.edge && rank < SPEAKS_FIRST.size) seen.add(touching(finding));
  }
  return left.size === 0 ? findings : findings.filter((finding) => !left.has(finding));
}

/** Whether one may repeat the other: both are about the same person, or about none, at the same edge. */
function isBeside(one: Finding, other: Finding): boolean {
  return one.person === other.person && one.edge === other.edge;
}

/** Those that say most first, else as they are. */
function inOrder(findings: readonly Finding[]): { readonly finding: Finding; readonly rank: number }[] {
  const ranked = findings.map((finding) => ({ finding, rank: SPEAKS_FIRST.get(finding.rule) ?? SPEAKS_FIRST.size }));
  return ranked.sort((one, other) => one.rank - other.rank);
}

/** Wrist and hand, ankle and foot are one end of a limb. */
const LIMBS: ReadonlyMap<string, string> = new Map(
  ['left', 'right'].flatMap((side): [string, string][] => [
    [`${side}_wrist`, `${side} arm`],
    [`${side}_hand`, `${side} arm`],
    [`${side}_ankle`, `${side} leg`],
    [`${side}_foot`, `${side} leg`],
  ]),
);

/** What a finding is about, and what it repeats. Firm words come before soft ones by order of the limits. */
function keysOf(finding: Finding): string[] {
  const { rule, person, joint, edge } = finding;
  const isTouch = rule === 'edge-clearance' || rule === 'print-bleed';
  if (isTouch && person !== undefined) return [identityOf(finding), touching(finding)];
  const limb = joint === undefined ? undefined : LIMBS.get(joint);
  if (limb === undefined) return [identityOf(finding)];
  return [identityOf(finding), `end ${person ?? ''} ${edge ?? ''} ${limb}`];
}

function touching(finding: Finding): string {
  return `touch ${finding.person ?? ''} ${finding.edge ?? ''}`;
}
