/** Rounding noise of a few dozen pivots on numbers of some thousands. */
const NOISE = 1e-8;
/** A smaller pivot would blow up what rounding left. */
const SMALLEST_PIVOT = 1e-9;
/** Pivots by the largest miss; from then on by the lowest index, which cannot go round in circles (Bland's rule). */
const PATIENCE = 60;
const MOST_PIVOTS = 2000;

export type Outcome = 'optimal' | 'infeasible' | 'beyond';

/**
 * A linear programme "least cost · x with x ≥ 0 and every row ≥ 0", kept as a dictionary: each basic variable, and the
 * cost, as a constant plus a linear expression in the variables that are zero now. Costs never go negative, so that a
 * row can be added at any time and the dual simplex method goes on from where it was.
 */
export class Tableau {
  /** Row 0 is the cost; column 0 holds the constants. */
  private readonly values: Float64Array;
  private readonly rows: number;
  private readonly columns: number;
  /** Variable of each row but the first, and of each column but the first; numbers below `structural` are the x. */
  private readonly basic: number[];
  private readonly nonbasic: number[];
  private readonly structural: number;
  private readonly nextVariable: number;

  private constructor(
    values: Float64Array,
    basic: number[],
    nonbasic: number[],
    structural: number,
    nextVariable: number,
  ) {
    this.values = values;
    this.rows = basic.length + 1;
    this.columns = nonbasic.length + 1;
    this.basic = basic;
    this.nonbasic = nonbasic;
    this.structural = structural;
    this.nextVariable = nextVariable;
  }

  /** No rows yet, everything at zero. `costs` must not be negative. */
  static withCosts(constant: number, costs: readonly number[]): Tableau {
    const nonbasic = costs.map((_, index) => index);
    return new Tableau(Float64Array.of(constant, ...costs), [], nonbasic, costs.length, costs.length);
  }

  get cost(): number {
    return this.values[0]!;
  }

  /**
   * A copy with one more row, `constant + coefficients · x ≥ 0`. With a price the row may be missed: each unit that it
   * lacks costs so much.
   */
  withRow(constant: number, coefficients: readonly number[], price?: number): Tableau {
    const columns = this.columns + (price === undefined ? 0 : 1);
    const end = this.rows * columns;
    const values = new Float64Array(end + columns);
    const nonbasic = this.nonbasic.slice();
    if (price === undefined) values.set(this.values);
    else {
      this.spreadInto(values, columns);
      values[columns - 1] = price;
      values[end + columns - 1] = 1;
      nonbasic.push(this.nextVariable + 1);
    }
    this.writeRow(values, end, constant, coefficients);
    const basic = this.basic.slice();
    basic.push(this.nextVariable);
    return new Tableau(values, basic, nonbasic, this.structural, this.nextVariable + 2);
  }

  /** The rows as they are, each `wider` numbers apart. */
  private spreadInto(target: Float64Array, wider: number): void {
    const { values, columns } = this;
    for (let row = 0; row < this.rows; row++) {
      for (let column = 0; column < columns; column++) {
        target[row * wider + column] = values[row * columns + column]!;
      }
    }
  }

  /** A row in structural variables as one in the variables that are zero now, written from place `at`. */
  private writeRow(target: Float64Array, at: number, constant: number, coefficients: readonly number[]): void {
    const { values, columns, structural, basic, nonbasic } = this;
    target[at] = constant;
    for (let column = 1; column < columns; column++) {
      const variable = nonbasic[column - 1]!;
      if (variable < structural) target[at + column] = coefficients[variable]!;
    }
    for (let row = 1; row < this.rows; row++) {
      const variable = basic[row - 1]!;
      if (variable >= structural) continue;
      const factor = coefficients[variable]!;
      if (factor === 0) continue;
      const offset = row * columns;
      for (let column = 0; column < columns; column++) target[at + column]! += factor * values[offset + column]!;
    }
  }

  /** Pivots until every row is met at the least cost, none can be, or the cost is beyond `most`. */
  solve(most = Infinity): Outcome {
    for (let pivots = 0; pivots < MOST_PIVOTS; pivots++) {
      const row = this.missedRow(pivots >= PATIENCE);
      if (row === 0) return 'optimal';
      const column = this.enteringColumn(row);
      if (column === 0) return 'infeasible';
      this.pivot(row, column);
      if (this.cost > most) return 'beyond';
    }
    throw new Error(`A linear programme of ${this.rows} rows did not end after ${MOST_PIVOTS} pivots.`);
  }

  private missedRow(byIndex: boolean): number {
    let chosen = 0;
    let worst = -NOISE;
    for (let row = 1; row < this.rows; row++) {
      const value = this.values[row * this.columns]!;
      if (value >= -NOISE) continue;
      const better = byIndex ? chosen === 0 || this.basic[row - 1]! < this.basic[chosen - 1]! : value < worst;
      if (!better) continue;
      chosen = row;
      worst = value;
    }
    return chosen;
  }

  /** The column whose cost per unit of help is least; ties go to the lowest variable. */
  private enteringColumn(row: number): number {
    const offset = row * this.columns;
    let chosen = 0;
    let least = Infinity;
    for (let column = 1; column < this.columns; column++) {
      const help = this.values[offset + column]!;
      if (help <= SMALLEST_PIVOT) continue;
      const ratio = this.values[column]! / help;
      const tied = ratio === least && this.nonbasic[column - 1]! < this.nonbasic[chosen - 1]!;
      if (ratio < least || tied) {
        least = ratio;
        chosen = column;
      }
    }
    return chosen;
  }

  private pivot(row: number, column: number): void {
    const { values, columns } = this;
    const offset = row * columns;
    const inverse = 1 / values[offset + column]!;
    // The row's variable, zero from now on, takes the column's place.
    for (let other = 0; other < columns; other++) values[offset + other]! *= -inverse;
    values[offset + column] = inverse;
    for (let other = 0; other < this.rows; other++) {
      if (other === row) continue;
      const start = other * columns;
      const factor = values[start + column]!;
      if (factor === 0) continue;
      values[start + column] = 0;
      for (let place = 0; place < columns; place++) values[start + place]! += factor * values[offset + place]!;
    }
    // What rounding took from a cost is not given back as a negative one.
    for (let other = 1; other < columns; other++) if (values[other]! < 0) values[other] = 0;
    const leaving = this.basic[row - 1]!;
    this.basic[row - 1] = this.nonbasic[column - 1]!;
    this.nonbasic[column - 1] = leaving;
  }

  /** The values of the structural variables now. */
  point(): number[] {
    const point: number[] = [];
    for (let variable = 0; variable < this.structural; variable++) point.push(0);
    for (let row = 1; row < this.rows; row++) {
      const variable = this.basic[row - 1]!;
      if (variable < this.structural) point[variable] = this.values[row * this.columns]!;
    }
    return point;
  }
}
