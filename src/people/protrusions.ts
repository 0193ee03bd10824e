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
  const found: Point[] = [];
  let seen: Seen | undefined;
  for (let index = 0; index < outline.length; index++) {
    const corner = outline[index]!;
    if (corner.cutByPhoto || !isOfInterest(corner)) continue;
    seen ??= seenFrom(edge, outline);
    if (prominence(seen.outward, index) < PROMINENCE * figure.height) continue;
    const isInGap = seen.outward[index] !== seen.outermost && turnAt(outline, index) * seen.area < 0;
    if (!isInGap) found.push(corner);
  }
  return found;
}

/** An outline as an edge sees it. */
interface Seen {
  /** How far out each corner lies, in pixels. */
  readonly outward: readonly number[];
  readonly outermost: number;
  readonly area: number;
}

function seenFrom(edge: EdgeName, outline: readonly Point[]): Seen {
  const outward = outline.map((corner) => outwardness(edge, corner));
  let outermost = -Infinity;
  for (const value of outward) outermost = Math.max(outermost, value);
  return { outward, outermost, area: twiceSignedArea(outline) };
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
  switch (edge) {
    case 'left':
      return -x;
    case 'top':
      return -y;
    case 'right':
      return x;
    case 'bottom':
      return y;
  }
}

/** How far one must come down from this corner, both ways round, before the outline goes further out than it. */
function prominence(outward: readonly number[], index: number): number {
  return Math.min(dropFrom(outward, index, 1), dropFrom(outward, index, -1));
}

function dropFrom(outward: readonly number[], index: number, step: 1 | -1): number {
  const count = outward.length;
  const here = outward[index]!;
  let lowest = here;
  for (let walked = 1, at = index; walked < count; walked += 1) {
    at += step;
    if (at === count) at = 0;
    else if (at < 0) at = count - 1;
    const value = outward[at]!;
    // Of two equal corners the first one counts.
    if (value > here || (value === here && step < 0)) return here - lowest;
    lowest = Math.min(lowest, value);
  }
  return Infinity;
}
