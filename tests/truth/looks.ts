import { describe, expect, it } from 'vitest';
import { lookingOf } from '../../src/people/looking.ts';
import type { MeasuredPhoto } from './support/measured.ts';
import { pairsOf, type Pair } from './support/pairs.ts';

/** From the right ear (0) to the left (1): outside these a head is turned, between those of FRONTAL it is not. */
const TURNED = [0.1, 0.9] as const;
const FRONTAL = [0.3, 0.7] as const;

/** Where heads look, against labelled noses and ears. */
export function describeLooks(
  photos: () => readonly MeasuredPhoto[],
  { turned, frontal }: { readonly turned: number; readonly frontal: number },
): void {
  describe('looks', () => {
    it('of turned heads are told right, and nobody who looks ahead is told turned', () => {
      const counts = expectLooks(pairsOf(photos()));
      expect(counts.turned).toBeGreaterThanOrEqual(turned);
      expect(counts.frontal).toBeGreaterThanOrEqual(frontal);
    });
  });
}

/** Between turned and frontal no head may be told the wrong way. */
function expectLooks(pairs: readonly Pair[]): { turned: number; frontal: number } {
  let [turned, frontal] = [0, 0];
  for (const pair of pairs) {
    const share = noseBetweenEars(pair);
    if (share === undefined) continue;
    const looks = lookingOf(pair.measuredFigure.points);
    const side = share < 0.5 ? 'left' : 'right';
    if (share < TURNED[0] || share > TURNED[1]) {
      turned += 1;
      expect(looks, pair.name).toBe(side);
    } else if (share >= FRONTAL[0] && share <= FRONTAL[1]) {
      frontal += 1;
      expect(looks, pair.name).toBe('ahead');
    } else expect(['ahead', side], pair.name).toContain(looks);
  }
  return { turned, frontal };
}

/** Where the nose lies between the ears; undefined where one of five points is not labelled. */
function noseBetweenEars({ labelled: { points } }: Pair): number | undefined {
  const [nose, left, right] = [points.get('nose'), points.get('left_ear'), points.get('right_ear')];
  if (!nose || !left || !right || !points.has('left_eye') || !points.has('right_eye')) return undefined;
  return (nose.x - right.x) / (left.x - right.x);
}
