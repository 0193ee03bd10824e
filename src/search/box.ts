import type { Row } from './programme.ts';

/** Between which values each edge line can be, in units of the photo's diagonal: left, top, right, bottom. */
export interface Box {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** Room for rounding, in units of the diagonal: far under a pixel. */
const SLACK = 1e-9;
/** A crop of a turned picture may reach outside the oriented photo, but never this far. */
const FAR = 4;

export function wideBox(): Box {
  return { low: new Float64Array(4).fill(-FAR), high: new Float64Array(4).fill(FAR) };
}

export function copyOf(box: Box): Box {
  return { low: box.low.slice(), high: box.high.slice() };
}

/** The least that the row's left side can be in the box. */
function leastIn({ low, high }: Box, row: Row): number {
  const [left, top, right, bottom] = row.coefficients;
  return (
    left * (left > 0 ? low : high)[0]! +
    top * (top > 0 ? low : high)[1]! +
    right * (right > 0 ? low : high)[2]! +
    bottom * (bottom > 0 ? low : high)[3]!
  );
}

/** Whether some point of the box may meet the row. */
export function canMeet(box: Box, row: Row): boolean {
  return leastIn(box, row) <= row.bound + SLACK;
}

/** Whether every point of the box meets the row. */
export function alwaysMeets({ low, high }: Box, row: Row): boolean {
  return leastIn({ low: high, high: low }, row) <= row.bound + SLACK;
}

/** Draws the box in to what the row leaves of it; false when nothing is left. */
export function tighten(box: Box, row: Row): boolean {
  const least = leastIn(box, row);
  if (least > row.bound + SLACK) return false;
  const { low, high } = box;
  for (let edge = 0; edge < 4; edge++) {
    const coefficient = row.coefficients[edge]!;
    if (coefficient === 0) continue;
    const own = coefficient * (coefficient > 0 ? low : high)[edge]!;
    const bound = (row.bound - least + own) / coefficient;
    if (coefficient > 0) {
      if (bound < high[edge]!) high[edge] = bound;
    } else if (bound > low[edge]!) low[edge] = bound;
    if (low[edge]! > high[edge]! + SLACK) return false;
  }
  return true;
}
