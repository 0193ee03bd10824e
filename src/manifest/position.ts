/** 1-based line and column; columns count UTF-16 code units. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Turns offsets into lines and columns. Lines end with `\n` or `\r\n`, as YAML's do. */
export class LineIndex {
  readonly #starts: number[] = [0];
  readonly #length: number;

  constructor(text: string) {
    this.#length = text.length;
    for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) this.#starts.push(at + 1);
  }

  get lineCount(): number {
    return this.#starts.length;
  }

  /** The position of `offset` (UTF-16 code units, clamped to the text). */
  positionAt(offset: number): Position {
    const inside = Math.max(0, Math.min(offset, this.#length));
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (this.#starts[middle]! <= inside) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: inside - this.#starts[low]! + 1 };
  }

  /** The offset of a 1-based line and column, clamped to the text. */
  offsetAt(position: Position): number {
    const start = this.#starts[Math.max(0, Math.min(position.line, this.#starts.length) - 1)]!;
    return Math.max(0, Math.min(start + position.column - 1, this.#length));
  }
}
