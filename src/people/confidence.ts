/**
 * How firmly a rule may speak about a point. The confidence of a measured point is calibrated (docs/benchmarks.md has
 * the table): at `FIRM` and above at least nine of ten points lie within 5 % of the person's height of the truth.
 */
export const FIRM = 0.7;
/** From here to `FIRM` a rule says "possibly"; below, it says nothing. */
export const POSSIBLE = 0.4;

export type Firmness = 'firm' | 'possible' | 'silent';

export function firmnessOf(confidence: number): Firmness {
  if (confidence >= FIRM) return 'firm';
  return confidence >= POSSIBLE ? 'possible' : 'silent';
}
