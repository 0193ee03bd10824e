import type { Finding } from './finding.ts';

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
  if (findings.length < 2) return findings;
  const told: Finding[] = [];
  for (const finding of inOrder(findings)) {
    if (!told.some((other) => isRepeatedBy(finding, other))) told.push(finding);
  }
  return told.length === findings.length ? findings : findings.filter((finding) => told.includes(finding));
}

/** Those that say most first, else as they are: firm words come before soft ones by order of the limits. */
function inOrder(findings: readonly Finding[]): readonly Finding[] {
  return [...findings].sort((one, other) => rankOf(one) - rankOf(other));
}

function rankOf({ rule }: Finding): number {
  return SPEAKS_FIRST.get(rule) ?? SPEAKS_FIRST.size;
}

/** Wrist and hand, ankle and foot are one end of a limb. */
const LIMBS: ReadonlyMap<string | undefined, string> = new Map(
  ['left', 'right'].flatMap((side): [string, string][] => [
    [`${side}_wrist`, `${side} arm`],
    [`${side}_hand`, `${side} arm`],
    [`${side}_ankle`, `${side} leg`],
    [`${side}_foot`, `${side} leg`],
  ]),
);

/** Whether a finding says nothing beside another that says more: both are about the same person at the same edge. */
function isRepeatedBy(finding: Finding, other: Finding): boolean {
  if (finding.person !== other.person || finding.edge !== other.edge) return false;
  if (finding.rule === other.rule && finding.joint === other.joint) return true;
  if (isTouch(finding)) return isTouch(other) || (other.edge !== undefined && SPEAKS_FIRST.has(other.rule));
  const limb = LIMBS.get(finding.joint);
  return limb !== undefined && !isTouch(other) && limb === LIMBS.get(other.joint);
}

/** Whether it says of somebody's body that an edge touches it. */
function isTouch({ rule, person }: Finding): boolean {
  return person !== undefined && (rule === 'edge-clearance' || rule === 'print-bleed');
}
