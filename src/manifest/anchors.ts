import type { Alias, Node, Pair } from 'yaml';
import { isAlias, isCollection, isPair } from 'yaml';
import type { TextRange } from './manifest.ts';
import { rangeOf } from './ranges.ts';

/** Which node each alias stands for. yaml's own look-up walks the document once per alias. */
export class Anchors {
  readonly #targets = new Map<Alias, Node>();
  readonly #used = new Set<Node>();

  /** Walks `root` in the order of the text. A text without `*` and `&` has no aliases, and is not walked. */
  constructor(root: Node | null, text: string) {
    if (!root || !text.includes('*') || !text.includes('&')) return;
    const known = new Map<string, Node>();
    const waiting: (Node | Pair | null)[] = [root];
    for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
      if (next === null) continue;
      if (isPair(next)) {
        waiting.push(next.value as Node | null, next.key as Node | null);
      } else if (isAlias(next)) {
        const target = known.get(next.source);
        if (target) {
          this.#targets.set(next, target);
          this.#used.add(target);
        }
      } else {
        if (next.anchor !== undefined) known.set(next.anchor, next);
        if (isCollection(next)) for (let at = next.items.length; at > 0; at--) waiting.push(next.items[at - 1] as Node);
      }
    }
  }

  /** What the alias stands for; undefined when no anchor of that name stands before it. */
  target(alias: Alias): Node | undefined {
    return this.#targets.get(alias);
  }

  /** Anchored text that some alias uses, in the order of the text. */
  shared(): TextRange[] {
    return [...this.#used].map(rangeOf).sort((one, other) => one.start - other.start);
  }
}
