import type { HalfSpace } from '../geometry/half-space.ts';
import type { Edges } from '../geometry/shapes.ts';
import { heightOf } from '../geometry/shapes.ts';
import type { Problem } from './problem.ts';
import { TIE_BREAK } from './problem.ts';
import { Tableau } from './tableau.ts';

/** An expression in the structural variables of a tableau. */
interface Expression {
  readonly constant: number;
  readonly coefficients: readonly number[];
}

/**
 * The linear programme of a search without its either-ors, in pixels; its cost is the problem's times the diagonal.
 * Each edge is its present place plus a move there minus a move back, so that "no move" is where the dual simplex
 * method starts. A fixed shape moves left, top and height.
 */
export class Programme {
  readonly root: Tableau;
  private readonly start: Edges;
  private readonly shape: number | undefined;
  private readonly structural: number;

  constructor({ present, shape }: Problem) {
    const { left, top, right, bottom } = present;
    const height = heightOf(present);
    this.shape = shape;
    this.start = shape === undefined ? present : { left, top, right: left + shape * height, bottom };
    const costs = [1 + TIE_BREAK.left, 1 - TIE_BREAK.left, 1 + TIE_BREAK.top, 1 - TIE_BREAK.top];
    // A fixed shape's right and lower edge follow its height, so what they move is a variable of its own.
    costs.push(...(shape === undefined ? [1, 1, 1, 1] : [0, 0, 1, 1]), TIE_BREAK.centreX, TIE_BREAK.centreY);
    this.structural = costs.length;
    const tableau = Tableau.withCosts(TIE_BREAK.left * left + TIE_BREAK.top * top, costs);

    const sizes: [number, Expression][] = [
      [this.structural - 2, this.expression(0.5, 0, 0.5, 0, -(left + right) / 2)],
      [this.structural - 1, this.expression(0, 0.5, 0, 0.5, -(top + bottom) / 2)],
    ];
    if (shape !== undefined) {
      sizes.push([this.structural - 4, this.expression(0, 0, 1, 0, -right)]);
      sizes.push([this.structural - 3, this.expression(0, 0, 0, 1, -bottom)]);
    }
    this.root = sizes.reduce((grown, [variable, of]) => withSize(grown, variable, of), tableau);
  }

  /** A copy of `tableau` with one more condition; with a price it may be missed at so much a pixel. */
  add(tableau: Tableau, { left, top, right, bottom, atMost }: HalfSpace, price?: number): Tableau {
    const { constant, coefficients } = this.expression(-left, -top, -right, -bottom, atMost);
    return tableau.withRow(constant, coefficients, price);
  }

  /** An expression in the edges as one in the structural variables. */
  private expression(left: number, top: number, right: number, bottom: number, constant: number): Expression {
    const { start, shape } = this;
    const coefficients =
      shape === undefined
        ? [left, -left, top, -top, right, -right, bottom, -bottom, 0, 0]
        : inShape(left + right, top + bottom, shape * right + bottom);
    const atStart = left * start.left + top * start.top + right * start.right + bottom * start.bottom;
    return { constant: constant + atStart, coefficients };
  }

  /** Where the edges are at the tableau's point. */
  edgesAt(tableau: Tableau): Edges {
    const { start, shape } = this;
    const point = tableau.point();
    const move = (index: number) => point[2 * index]! - point[2 * index + 1]!;
    const left = move(0);
    const top = move(1);
    const right = shape === undefined ? move(2) : left + shape * move(2);
    const bottom = shape === undefined ? move(3) : top + move(2);
    return {
      left: start.left + left,
      top: start.top + top,
      right: start.right + right,
      bottom: start.bottom + bottom,
    };
  }
}

/** What the moves of left, top and height of a fixed shape are multiplied by. */
function inShape(left: number, top: number, height: number): number[] {
  return [left, -left, top, -top, height, -height, 0, 0, 0, 0];
}

/** Makes a variable at least as large as an expression, whatever its sign. */
function withSize(tableau: Tableau, variable: number, { constant, coefficients }: Expression): Tableau {
  const plus = coefficients.map((coefficient, index) => coefficient + Number(index === variable));
  const minus = coefficients.map((coefficient, index) => -coefficient + Number(index === variable));
  return tableau.withRow(constant, plus).withRow(-constant, minus);
}
