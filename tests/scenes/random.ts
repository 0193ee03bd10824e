/** Random numbers that are the same on every machine and run (mulberry32, public domain). */
export class Random {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** From 0 up to 1. */
  unit(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let mixed = this.state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.unit();
  }

  chance(share: number): boolean {
    return this.unit() < share;
  }

  pick<Item>(items: readonly Item[]): Item {
    return items[Math.floor(this.unit() * items.length)]!;
  }
}
