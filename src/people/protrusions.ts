import { twiceSignedArea } from '../geometry/points.ts';
import type { EdgeName, Point } from '../geometry/shapes.ts';
import type { Figure } from './figure.ts';

/** A bump counts when it stands out by this share of the person's height. */
const PROMINENCE = 0.02;

/**
 * Where the outline of a person stands out towards an edge: elbows, hands, feet, hair. Corners where the photo's own
 * edge ends the person are left out, and so are the ends of gaps (between the legs, under an arm), which lie in the body. Pixels of the turned picture; empty without an outline.
 * @param isOfInterest corners for which it says no are left out
 */
export function protrusions(
  figure: Figure,
  edge: EdgeName,
  isOfInterest: (corner: Point) => boolean = () => true,
): Point[] {
  const { outline } = figure;
  if (!outline || outline.length < 3) return [];
  if (!outline.some(isOfInterest)) return [];
  const outward = outline.map((corner) => outwardness(edge, corner));
  const least = PROMINENCE * figure.height;
  const outermost = Math.max(...outward);
  const area = twiceSignedArea(outline);
  const isInGap = (index: number) => outward[index] !== outermost && turnAt(outline, index) * area < 0;
  return outline.filter(
    (corner, index) =>
      !corner.cutByPhoto && isOfInterest(corner) && prominence(outward, index) >= least && !isInGap(index),
  );
}

/** Which way the outline turns at a corner: with the sign of the area where the body bulges, against it in a gap. */
function turnAt(outline: readonly Point[], index: number): number {
  const here = outline[index]!;
  const next = (step: number): Point => {
    for (let walked = 1; walked < outline.length; walked += 1) {
      const other = outline[(index + step * walked + outline.length) % outline.length]!;
      if (other.x !== here.x || other.y !== here.y) return other;
    }
    return here;
  };
  const before = next(-1);
  const after = next(1);
  return (here.x - before.x) * (after.y - here.y) - (here.y - before.y) * (after.x - here.x);
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
