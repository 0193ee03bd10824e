import type { EdgeName, Edges } from '../geometry/shapes.ts';
import { firmnessOf } from '../people/confidence.ts';
import type { Figure } from '../people/figure.ts';
import { measuringError } from '../people/measuring-error.ts';
import type { Region } from '../people/regions.ts';
import { bodyOut, clearOf, past, pixels, rangeAcross, rangeAlong } from './limits.ts';
import { isClear } from './near-edges.ts';
import type { Limit } from './rule.ts';
import { edgeWords } from './words.ts';

/** No edge through a hand or a foot, nor nearer to it than a share of the limb that it ends. */
export function regionLimits(
  figure: Figure,
  region: Region,
  part: 'hand' | 'foot',
  marginPercent: number,
  edges: readonly EdgeName[],
  at: Edges | undefined,
): Limit[] {
  const { box, side, limb, confidence } = region;
  const possible = firmnessOf(confidence) !== 'firm';
  // Where the hand or foot is not surely known, only an edge right through it is worth a word.
  const margin = possible ? 0 : (marginPercent / 100) * limb;
  const limits: Limit[] = [];
  for (const edge of edges) {
    const [low, high] = rangeAcross(edge, box);
    if (isClear(at, edge, low - margin, high + margin)) continue;
    const [from, to] = rangeAlong(edge, box);
    limits.push({
      message: 'cut',
      arguments: { edge: edgeWords(edge), person: figure.id, side },
      escapes: [...clearOf(edge, low - margin, high + margin, from, to), bodyOut(edge, figure)],
      deeper: measuringError(figure, part, confidence),
      edge,
      person: figure.id,
      joint: `${side}_${part}`,
      possible,
      measure: { of: past(edge, (low + high) / 2), per: pixels(limb) },
      bound: possible ? undefined : marginPercent,
    });
  }
  return limits;
}

/** How far outside a body an edge may break the limits of these regions, in pixels. */
export function regionReach(regions: readonly Region[], marginPercent: number): number {
  let longest = 0;
  for (const { limb } of regions) longest = Math.max(longest, limb);
  return (marginPercent / 100) * longest;
}
