import type { EdgeName } from '../../geometry/shapes.ts';
import { EDGE_NAMES } from '../../geometry/shapes.ts';
import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { ActiveLimit } from '../active-limit.ts';
import { edgeWords, listed, partWords } from '../words.ts';
import type { Gap, LevellingCost } from './cost.ts';

const AT_EDGE: Readonly<Record<EdgeName, string>> = {
  left: 'at the left',
  top: 'at the top',
  right: 'at the right',
  bottom: 'at the bottom',
};

/** What levelling costs, in one or two sentences. */
export function costWords({ losses, under, over, cuts, lengths }: LevellingCost): string {
  const lost = EDGE_NAMES.filter((edge) => Math.round(losses[edge]) > 0);
  const margin =
    lost.length > 0
      ? `The largest crop of this shape then loses ${listed(lost.map((edge) => `${Math.round(losses[edge])} px ${AT_EDGE[edge]}`))}`
      : 'The crop keeps its size';
  const told = [
    gapWords('under the feet', under),
    gapWords('over the head', over),
    cutWords(cuts),
    lengths && `${LENGTH_WORDS[lengths[0]]} becomes ${LENGTH_WORDS[lengths[1]]}`,
  ].filter((words) => words !== undefined);
  return `${[margin, ...told].join('; ')}.`;
}

function gapWords(where: string, gap: Gap | undefined): string | undefined {
  if (!gap) return undefined;
  const before = Math.round(gap.before);
  const after = Math.round(gap.after);
  if (after === before) return undefined;
  const place = `the gap ${where} of person ${gap.person}`;
  return after <= 0 ? `${place}, ${before} px now, closes` : `${place} shrinks from ${before} to ${after} px`;
}

/** So many parts of a body are named; more of them say nothing new. */
const MOST_PARTS = 2;

/** "the lower edge would cut the left ankle, the right ankle and 2 more". */
function cutWords(cuts: readonly ActiveLimit[]): string | undefined {
  const [first] = cuts;
  if (!first) return undefined;
  const { edge = 'bottom', person } = first.limit;
  const same = cuts.filter(({ limit }) => limit.edge === edge && limit.person === person);
  const firm = same.some(({ limit }) => limit.possible !== true);
  const parts = [...new Set(same.map(({ limit }) => `the ${partWords(limit.joint ?? 'body')}`))];
  const named = parts.slice(0, MOST_PARTS);
  const more = cuts.length - named.length;
  const all = more > 0 ? [...named, `${more} more`] : named;
  return `the ${edgeWords(edge)} would ${firm ? 'cut' : 'possibly cut'} ${listed(all)} of person ${person ?? ''}`;
}
