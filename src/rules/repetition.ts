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
  if (findings.length < 2) return findings;
  const seen = new Set<string>();
  const kept: Finding[] = [];
  const ordered = [...findings].sort((a, b) => precedence(a) - precedence(b));
  for (const finding of ordered) {
    const keys = [identityOf(finding), ...limbKeys(finding)];
    if (keys.some((key) => seen.has(key))) continue;
    for (const key of keys) seen.add(key);
    if (finding.edge && precedence(finding) < SPEAKS_FIRST.size) seen.add(touching(finding));
    kept.push(finding);
  }
  return kept.length === findings.length ? findings : findings.filter((finding) => kept.includes(finding));
}

function precedence(finding: Finding): number {
  return SPEAKS_FIRST.get(finding.rule) ?? SPEAKS_FIRST.size;
}

/** Wrist and hand, ankle and foot are one end of a limb. Firm words come before soft ones by order of the limits. */
function limbKeys(finding: Finding): string[] {
  const end = /^(left|right)_(wrist|hand|ankle|foot)$/.exec(finding.joint ?? '');
  const isTouch = finding.rule === 'edge-clearance' || finding.rule === 'print-bleed';
  if (isTouch && finding.person !== undefined) return [touching(finding)];
  if (!end) return [];
  const limb = end[2] === 'wrist' || end[2] === 'hand' ? 'arm' : 'leg';
  return [`end ${finding.person ?? ''} ${finding.edge ?? ''} ${end[1] ?? ''} ${limb}`];
}

function touching(finding: Finding): string {
  return `touch ${finding.person ?? ''} ${finding.edge ?? ''}`;
}
