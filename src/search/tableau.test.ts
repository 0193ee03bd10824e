import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Tableau } from './tableau.ts';

interface Row {
  readonly constant: number;
  readonly coefficients: readonly number[];
}

const number = fc.integer({ min: -9, max: 9 });
const programme = fc.integer({ min: 1, max: 3 }).chain((variables) =>
  fc.record({
    costs: fc.array(fc.integer({ min: 0, max: 5 }), { minLength: variables, maxLength: variables }),
    rows: fc.array(
      fc.record({
        constant: number,
        coefficients: fc.array(number, { minLength: variables, maxLength: variables }),
      }),
      { maxLength: 6 },
    ),
  }),
);

/** The least cost over all corners: every choice of as many rows (or x ≥ 0) as there are variables, held at zero. */
function leastAtCorners(costs: readonly number[], rows: readonly Row[]): number | undefined {
  const variables = costs.length;
  const bounds = costs.map((_, index) => ({ constant: 0, coefficients: costs.map((__, at) => Number(at === index)) }));
  const all = [...rows, ...bounds];
  let least: number | undefined;
  for (const chosen of choices(all, variables)) {
    const corner = solveEquations(chosen);
    if (!corner || all.some((row) => valueOf(row, corner) < -1e-7)) continue;
    const cost = corner.reduce((sum, value, index) => sum + value * costs[index]!, 0);
    if (least === undefined || cost < least) least = cost;
  }
  return least;
}

function valueOf({ constant, coefficients }: Row, point: readonly number[]): number {
  return coefficients.reduce((sum, coefficient, index) => sum + coefficient * point[index]!, constant);
}

function choices<Item>(items: readonly Item[], count: number): Item[][] {
  if (count === 0) return [[]];
  return items.flatMap((item, index) => choices(items.slice(index + 1), count - 1).map((rest) => [item, ...rest]));
}

/** By Cramer's rule. */
function solveEquations(rows: readonly Row[]): number[] | undefined {
  const matrix = rows.map(({ coefficients }) => [...coefficients]);
  const whole = determinant(matrix);
  if (Math.abs(whole) < 1e-9) return undefined;
  return rows.map((_, column) => {
    const replaced = matrix.map((row, at) =>
      row.map((value, index) => (index === column ? -rows[at]!.constant : value)),
    );
    return determinant(replaced) / whole;
  });
}

function determinant(matrix: readonly (readonly number[])[]): number {
  const [first, ...rest] = matrix;
  if (!first) return 1;
  return first.reduce((sum, value, column) => {
    const minor = rest.map((row) => row.filter((_, index) => index !== column));
    return sum + (column % 2 === 0 ? 1 : -1) * value * determinant(minor);
  }, 0);
}

describe('a tableau', () => {
  test('finds the least cost, or that there is none, as going through all corners does', () => {
    fc.assert(
      fc.property(programme, ({ costs, rows }) => {
        let tableau = Tableau.withCosts(0, costs);
        for (const { constant, coefficients } of rows) tableau = tableau.withRow(constant, coefficients);
        const outcome = tableau.solve();
        const least = leastAtCorners(costs, rows);
        expect(outcome).toBe(least === undefined ? 'infeasible' : 'optimal');
        if (least !== undefined) expect(tableau.cost).toBeCloseTo(least, 6);
      }),
      { numRuns: 500 },
    );
  });

  test('gives the same when each row is added to the solved one before it', () => {
    fc.assert(
      fc.property(programme, ({ costs, rows }) => {
        let grown = Tableau.withCosts(0, costs);
        let outcome = grown.solve();
        for (const { constant, coefficients } of rows) {
          if (outcome === 'infeasible') break;
          grown = grown.withRow(constant, coefficients);
          outcome = grown.solve();
        }
        const least = leastAtCorners(costs, rows);
        expect(outcome).toBe(least === undefined ? 'infeasible' : 'optimal');
        if (least === undefined) return;
        expect(grown.cost).toBeCloseTo(least, 6);
        const point = [...grown.point()];
        for (const row of rows) expect(valueOf(row, point)).toBeGreaterThan(-1e-6);
        for (const value of point) expect(value).toBeGreaterThan(-1e-6);
      }),
      { numRuns: 500 },
    );
  });

  test('lets a row with a price be missed, for that price', () => {
    // x ≥ 10 at cost 3 each, or missed at 2 each: missing all ten is cheaper.
    const cheap = Tableau.withCosts(0, [3]).withRow(-10, [1], 2);
    expect(cheap.solve()).toBe('optimal');
    expect(cheap.cost).toBeCloseTo(20);
    const dear = Tableau.withCosts(0, [3]).withRow(-10, [1], 4);
    expect(dear.solve()).toBe('optimal');
    expect(dear.cost).toBeCloseTo(30);
    expect([...dear.point()]).toEqual([10]);
  });

  test('leaves the tableau that a row was added to as it was', () => {
    const before = Tableau.withCosts(0, [1, 1]).withRow(-2, [1, 0]);
    before.solve();
    before.withRow(-5, [0, 1]).solve();
    expect(before.cost).toBeCloseTo(2);
  });

  test('stops when the cost goes beyond what is asked', () => {
    expect(Tableau.withCosts(0, [1]).withRow(-10, [1]).solve(9)).toBe('beyond');
  });
});
