import type { HalfSpace } from '../geometry/half-space.ts';
import type { Edges } from '../geometry/shapes.ts';
import { heightOf } from '../geometry/shapes.ts';
import type { Problem } from './problem.ts';
import { TIE_BREAK } from './problem.ts';
import { Tableau } from './tableau.ts';

/** Edge lines as the solver has them: left, top, right, bottom in units of the photo's diagonal. */
export type EdgeVector = Float64Array;

/** `coefficients · edges ≤ bound`, in units of the photo's diagonal. */
export interface Row {
  readonly coefficients: readonly [number, number, number, number];
  readonly bound: number;
}

export function rowOf(halfSpace: HalfSpace, diagonal: number): Row {
  const { left, top, right, bottom } = halfSpace;
  return { coefficients: [left, top, right, bottom], bound: halfSpace.atMost / diagonal };
}

export function edgesFrom(vector: EdgeVector, diagonal: number): Edges {
  const [left = 0, top = 0, right = 0, bottom = 0] = vector;
  return { left: left * diagonal, top: top * diagonal, right: right * diagonal, bottom: bottom * diagonal };
}

/**
 * The linear programme of a search without its either-ors. Each edge is its present place plus a move there minus a
 * move back, so that "no move" is where the dual simplex method starts. A fixed shape moves left, top and height.
 */
export class Programme {
  readonly root: Tableau;
  private readonly start: readonly number[];
  /** Per edge, its coefficients in the base moves. */
  private readonly moves: readonly (readonly number[])[];
  private readonly structural: number;

  constructor(problem: Problem) {
    const { diagonal, present, shape } = problem;
    const free = shape === undefined;
    const target = [present.left, present.top, present.right, present.bottom].map((value) => value / diagonal);
    const [left = 0, top = 0, right = 0, bottom = 0] = target;
    const height = heightOf(present) / diagonal;
    this.start = free ? target : [left, top, left + shape * height, top + height];
    this.moves = free
      ? [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1]] // prettier-ignore
      : [[1, 0, 0], [0, 1, 0], [1, 0, shape], [0, 1, 1]]; // prettier-ignore
    const base = free ? 4 : 3;
    const centre = TIE_BREAK.centre;
    const costs = [1 + TIE_BREAK.left, 1 - TIE_BREAK.left, 1 + TIE_BREAK.top, 1 - TIE_BREAK.top];
    // A fixed shape's right and lower edge follow, so what they move is a variable of its own.
    costs.push(...(free ? [1, 1, 1, 1] : [0, 0, 1, 1]), centre, centre);
    this.structural = costs.length;

    let tableau = Tableau.withCosts(TIE_BREAK.left * left + TIE_BREAK.top * top, costs);
    const bounded = (variable: number, coefficients: readonly [number, number, number, number], value: number) => {
      for (const sign of [1, -1]) {
        const row = this.expand(coefficients.map((coefficient) => -sign * coefficient));
        row.values[variable]! += 1;
        tableau = tableau.withRow(row.constant + sign * value, row.values);
      }
    };
    if (!free) {
      bounded(2 * base, [0, 0, 1, 0], right);
      bounded(2 * base + 1, [0, 0, 0, 1], bottom);
    }
    bounded(this.structural - 2, [0.5, 0, 0.5, 0], (left + right) / 2);
    bounded(this.structural - 1, [0, 0.5, 0, 0.5], (top + bottom) / 2);
    this.root = tableau;
  }

  /** A copy of `tableau` with one more condition; with a price it may be missed at so much a unit. */
  add(tableau: Tableau, row: Row, price?: number): Tableau {
    const { values, constant } = this.expand(row.coefficients.map((coefficient) => -coefficient));
    return tableau.withRow(constant + row.bound, values, price);
  }

  /** An expression in the edges as one in the structural variables. */
  private expand(coefficients: readonly number[]): { values: Float64Array; constant: number } {
    const values = new Float64Array(this.structural);
    let constant = 0;
    for (let edge = 0; edge < 4; edge++) {
      const coefficient = coefficients[edge]!;
      if (coefficient === 0) continue;
      constant += coefficient * this.start[edge]!;
      const moves = this.moves[edge]!;
      for (let base = 0; base < moves.length; base++) {
        values[2 * base]! += coefficient * moves[base]!;
        values[2 * base + 1]! -= coefficient * moves[base]!;
      }
    }
    return { values, constant };
  }

  /** Where the edges are at the tableau's point. */
  edgesAt(tableau: Tableau): EdgeVector {
    const point = tableau.point();
    return Float64Array.from(this.moves, (moves, edge) =>
      moves.reduce((sum, move, base) => sum + move * (point[2 * base]! - point[2 * base + 1]!), this.start[edge]!),
    );
  }
}
