import type { EdgeName, Point } from '../geometry/shapes.ts';
import type { Figure } from './figure.ts';

/** A bump counts when it stands out by this share of the person's height. */
const PROMINENCE = 0.02;

/**
 * Where the outline of a person stands out towards an edge: elbows, hands, feet, hair. Corners where the photo's own
 * edge ends the person are left out. Pixels of the turned picture; empty without an outline.
 */
export function protrusions(figure: Figure, edge: EdgeName): Point[] {
  const { outline } = figure;
  if (!outline || outline.length < 3) return [];
  const outward = outline.map((corner) => outwardness(edge, corner));
  const least = PROMINENCE * figure.height;
  return outline.filter((corner, index) => !corner.cutByPhoto && prominence(outward, index) >= least);
}

function outwardness(edge: EdgeName, { x, y }: Point): number {
  return { left: -x, top: -y, right: x, bottom: y }[edge];
}

/** How far one must come down from this corner, both ways round, before the outline goes further out than it. */
function prominence(outward: readonly number[], index: number): number {
  const count = outward.length;
  const here = outward[index]!;
  const drop = (step: number): number => {
    let lowest = here;
    for (let walked = 1; walked < count; walked += 1) {
      const value = outward[(index + step * walked + count * count) % count]!;
      // Of two equal corners the first one counts.
      if (value > here || (value === here && step < 0)) return here - lowest;
      lowest = Math.min(lowest, value);
    }
    return Infinity;
  };
  return Math.min(drop(1), drop(-1));
}
