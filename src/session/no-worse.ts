import type { Finding } from '../rules/finding.ts';
import { identityOf } from '../rules/finding.ts';

/** Rules whose value tells how much a picture is off, not just that it is; in the unit of their pages. */
const OFF_BY_VALUE: ReadonlySet<string> = new Set(['headroom', 'length']);
/** Off by half as much again, and by a rung of the ladder or a percent of the height, is worse (no source). */
const WORSE_SHARE = 1.5;
const WORSE_BY = 1;

/** Which of the findings after a change were not there before it, or are further off. */
export function worseThan(before: readonly Finding[], after: readonly Finding[]): Finding[] {
  const known = new Map(before.map((finding) => [identityOf(finding), finding]));
  return after.filter((finding) => {
    const old = known.get(identityOf(finding));
    if (!old) return true;
    return (
      OFF_BY_VALUE.has(finding.rule) && offBy(finding) >= Math.max(WORSE_SHARE * offBy(old), offBy(old) + WORSE_BY)
    );
  });
}

function offBy({ value, limit }: Finding): number {
  return value === undefined || limit === undefined ? 0 : Math.abs(value - limit);
}
