/** Sums over the first items of a list whose numbers change one by one (a Fenwick tree): both take log n steps. */
export class PrefixSums {
  readonly #tree: Float64Array;

  constructor(length: number) {
    this.#tree = new Float64Array(length + 1);
  }

  add(index: number, amount: number): void {
    for (let at = index + 1; at < this.#tree.length; at += at & -at) this.#tree[at]! += amount;
  }

  /** The sum of the items before `index`. */
  before(index: number): number {
    let sum = 0;
    for (let at = index; at > 0; at -= at & -at) sum += this.#tree[at]!;
    return sum;
  }
}

/** How many of `count` ascending values lie at or below a bound; `isBelow` says it of the one at an index. */
export function countBelow(count: number, isBelow: (index: number) => boolean): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (isBelow(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}
