/**
 * How firmly a rule may speak about a point. The confidence of a measured point is the chance that it lies within 5 %
 * of the person's height of where a careful human would put it, fitted on labelled photos (docs/benchmarks.md has the
 * table). At `FIRM` and above at least nine of ten points of each kind do. A point beyond the photo's edge is never firm.
 */
export const FIRM = 0.7;
/** From here to `FIRM` a rule says "possibly"; below, it says nothing. */
export const POSSIBLE = 0.4;

export type Firmness = 'firm' | 'possible' | 'silent';

export function firmnessOf(confidence: number): Firmness {
  if (confidence >= FIRM) return 'firm';
  return confidence >= POSSIBLE ? 'possible' : 'silent';
}
