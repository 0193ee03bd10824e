import type { Box } from './box.ts';
import { alwaysMeets, canMeet, tighten, wideBox } from './box.ts';
import type { Problem } from './problem.ts';
import { TOLERANCE } from './problem.ts';
import type { EdgeVector, Row } from './programme.ts';
import { rowOf } from './programme.ts';

/** An either-or in the solver's units; `weight` is what breaking it costs, or what a diagonal's miss of a wish does. */
export interface EitherOr {
  readonly escapes: readonly Row[];
  readonly weight: number;
}

/** A problem in the solver's units, without what every crop in reach meets, and none can. */
export interface Compiled {
  readonly box: Box;
  /** Conditions, the tightest of each direction. */
  readonly conditions: readonly Row[];
  /** The fixed shape as two conditions, for drawing boxes in. */
  readonly shape: readonly Row[];
  readonly clauses: readonly EitherOr[];
  /** Wishes with one escape: a linear programme takes them as they are. */
  readonly convex: readonly EitherOr[];
  readonly wishes: readonly EitherOr[];
  /** Weight of the clauses that no crop in reach meets. */
  readonly lost: number;
  /** A row missed by less is met. */
  readonly tolerance: number;
}

/** Undefined when the conditions contradict each other. */
export function compile(problem: Problem): Compiled | undefined {
  const { diagonal } = problem;
  const conditions = tightest(problem.conditions.map(({ halfSpace }) => rowOf(halfSpace, diagonal)));
  const shape = shapeRows(problem.shape);
  const box = wideBox();
  for (let round = 0; round < 6; round++) if (!drawIn(box, conditions, shape)) return undefined;

  const toRows = ({ escapes, weight }: Problem['wishes'][number]): EitherOr => ({
    escapes: escapes.map((escape) => rowOf(escape, diagonal)),
    weight,
  });
  const open = ({ escapes }: EitherOr) => !escapes.some((escape) => alwaysMeets(box, escape));
  let lost = 0;
  const clauses: EitherOr[] = [];
  for (const { escapes, weight } of problem.clauses.map(toRows).filter(open)) {
    const reachable = escapes.filter((escape) => canMeet(box, escape));
    if (reachable.length > 0) clauses.push({ escapes: reachable, weight });
    else lost += weight;
  }
  const wishes = problem.wishes.map(toRows).filter((wish) => wish.escapes.length > 0 && open(wish));
  return {
    box,
    conditions,
    shape,
    clauses,
    convex: wishes.filter(({ escapes }) => escapes.length === 1),
    wishes: wishes.filter(({ escapes }) => escapes.length > 1),
    lost,
    tolerance: TOLERANCE / diagonal,
  };
}

/** Draws the box in by the conditions and the shape; false when nothing is left. */
export function drawIn(box: Box, conditions: readonly Row[], shape: readonly Row[]): boolean {
  for (const row of shape) if (!tighten(box, row)) return false;
  for (const row of conditions) if (!tighten(box, row)) return false;
  return true;
}

function shapeRows(shape: number | undefined): Row[] {
  if (shape === undefined) return [];
  return [
    { coefficients: [-1, shape, 1, -shape], bound: 0 },
    { coefficients: [1, -shape, -1, shape], bound: 0 },
  ];
}

/** Of conditions in the same direction the tightest. */
function tightest(rows: readonly Row[]): Row[] {
  const kept = new Map<string, Row>();
  for (const row of rows) {
    const key = row.coefficients.join(' ');
    const other = kept.get(key);
    if (!other || row.bound < other.bound) kept.set(key, row);
  }
  return [...kept.values()];
}

/** By how much the edges miss the nearest escape; zero when they meet one. */
export function missOf({ escapes }: EitherOr, edges: EdgeVector): number {
  let least = Infinity;
  for (const { coefficients, bound } of escapes) {
    const miss =
      coefficients[0] * edges[0]! +
      coefficients[1] * edges[1]! +
      coefficients[2] * edges[2]! +
      coefficients[3] * edges[3]! -
      bound;
    if (miss <= 0) return 0;
    if (miss < least) least = miss;
  }
  return least;
}

/** The row that holds where the given one does not. */
export function opposite({ coefficients: [left, top, right, bottom], bound }: Row): Row {
  return { coefficients: [-left, -top, -right, -bottom], bound: -bound };
}
