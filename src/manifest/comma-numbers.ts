import type { Node } from 'yaml';
import { isScalar, Pair, Scalar } from 'yaml';

/**
 * The pairs of a map in braces with numbers like `x: 0,1` put together again: the comma has made `x: 0` and a key `1`
 * of it, and nobody would know that 0 is not what was meant.
 */
export function joinCommaNumbers(items: readonly Pair<Node>[]): readonly Pair<Node>[] {
  if (!items.some((pair, place) => place > 0 && pair.value === null)) return items;
  return items.flatMap((pair, place) => {
    const before = items[place - 1];
    if (before && decimalsAfter(before, pair)) return [];
    const after = items[place + 1];
    const joined = after && decimalsAfter(pair, after);
    return joined ? [new Pair(pair.key, joined)] : [pair];
  });
}

/** The number that two pairs were written as, directly one behind the other. */
function decimalsAfter({ value }: Pair<Node>, { key, value: nothing }: Pair<Node>): Scalar | undefined {
  if (nothing !== null || !isPlain(value) || !isPlain(key)) return undefined;
  if (key.range[0] !== value.range[1] + 1) return undefined;
  if (!/^[-+]?\d{1,9}$/.test(value.source) || !/^\d{1,20} ?[a-z]{0,2}$/.test(key.source)) return undefined;
  const joined = new Scalar(`${value.source},${key.source}`);
  joined.range = [value.range[0], key.range[1], key.range[2]];
  joined.source = `${value.source},${key.source}`;
  joined.type = Scalar.PLAIN;
  return joined;
}

type Written = Scalar & { readonly source: string; readonly range: NonNullable<Scalar['range']> };

function isPlain(node: unknown): node is Written {
  return isScalar(node) && node.type === Scalar.PLAIN && node.source !== undefined && Boolean(node.range);
}
