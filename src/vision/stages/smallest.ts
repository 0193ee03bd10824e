/** So many values are looked through at a time. */
const BLOCK = 32;

/** Numbers of which the smallest is asked for again and again, while single ones change. */
export class Smallest {
  readonly #values: Float64Array;
  /** Where the smallest of each block is. */
  readonly #places: Int32Array;

  constructor(values: readonly number[]) {
    this.#values = Float64Array.from(values);
    this.#places = new Int32Array(Math.ceil(values.length / BLOCK));
    for (let block = 0; block < this.#places.length; block++) this.#search(block);
  }

  set(place: number, value: number): void {
    this.#values[place] = value;
    this.#search(Math.floor(place / BLOCK));
  }

  /** Of the smallest value, the first of equal ones. */
  place(): number {
    const values = this.#values;
    let smallest = 0;
    for (const place of this.#places) if (values[place]! < values[smallest]!) smallest = place;
    return smallest;
  }

  #search(block: number): void {
    const values = this.#values;
    const end = Math.min(values.length, (block + 1) * BLOCK);
    let smallest = block * BLOCK;
    for (let place = smallest + 1; place < end; place++) if (values[place]! < values[smallest]!) smallest = place;
    this.#places[block] = smallest;
  }
}
