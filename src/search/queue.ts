/** A priority queue (binary heap): `pop` gives an item that none precedes. */
export class Queue<Item> {
  private readonly items: Item[] = [];
  private readonly precedes: (a: Item, b: Item) => boolean;

  constructor(precedes: (a: Item, b: Item) => boolean) {
    this.precedes = precedes;
  }

  get first(): Item | undefined {
    return this.items[0];
  }

  push(item: Item): void {
    const { items } = this;
    let place = items.length;
    items.push(item);
    while (place > 0) {
      const parent = (place - 1) >> 1;
      if (!this.precedes(item, items[parent]!)) break;
      items[place] = items[parent]!;
      place = parent;
    }
    items[place] = item;
  }

  pop(): Item | undefined {
    const { items } = this;
    const top = items[0];
    const last = items.pop();
    if (top === undefined || last === undefined || items.length === 0) return top;
    let place = 0;
    for (;;) {
      let child = 2 * place + 1;
      if (child >= items.length) break;
      if (child + 1 < items.length && this.precedes(items[child + 1]!, items[child]!)) child++;
      if (!this.precedes(items[child]!, last)) break;
      items[place] = items[child]!;
      place = child;
    }
    items[place] = last;
    return top;
  }
}
