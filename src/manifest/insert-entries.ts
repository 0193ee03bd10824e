import type { Node, Pair, YAMLMap } from 'yaml';
import { isMergeKey, keyText } from './aliases.ts';
import { endsInBlockScalar, indentOf, pairEnd, pairStart } from './places.ts';
import { rangeOf, styleOf } from './ranges.ts';
import type { TextEdit } from './text-edit.ts';
import { lineBreakAt, lineEnd } from './text-edit.ts';

/**
 * Inserts entries that the map does not have. Each goes after the last of the keys that `order` names before it (a new
 * `crop` right under `photo`), else after the map's last entry; in block style on a line of its own, with the same
 * indentation and line break. `entries` maps keys to flow-style text.
 */
export function insertEntries(
  text: string,
  map: YAMLMap,
  entries: ReadonlyMap<string, string>,
  order: readonly string[],
): TextEdit[] {
  const style = styleOf(map);
  const pairs = map.items as Pair<Node>[];
  const sorted = [...entries].sort(([one], [other]) => order.indexOf(one) - order.indexOf(other));
  if (style === 'bare') return wrapped(map, sorted);
  if (pairs.length === 0) {
    const at = rangeOf(map).start + 1;
    return [{ start: at, end: at, text: ` ${sorted.map(([key, value]) => `${key}: ${value}`).join(', ')}` }];
  }
  return sorted.map(([key, value]) => {
    const before = style === 'flow' ? pairs : pairs.filter((pair) => !endsInBlockScalar(pair.value as Node | null));
    const neighbour = previous(before, key, order);
    return style === 'flow'
      ? insertion(pairEnd(neighbour!), `, ${key}: ${value}`)
      : onOwnLine(text, map, neighbour, `${key}: ${value}`);
  });
}

function onOwnLine(text: string, map: YAMLMap, neighbour: Pair<Node> | undefined, entry: string): TextEdit {
  const indentation = ' '.repeat(indentOf(map));
  if (!neighbour) {
    const start = pairStart(map.items[0] as Pair<Node>);
    return insertion(start, entry + lineBreakAt(text, start) + indentation);
  }
  const end = pairEnd(neighbour);
  return insertion(lineEnd(text, end), lineBreakAt(text, end) + indentation + entry);
}

/** The entry after which a new one goes. */
function previous(pairs: readonly Pair<Node>[], key: string, order: readonly string[]): Pair<Node> | undefined {
  const place = order.indexOf(key);
  if (place === -1) return pairs.at(-1);
  const merge = pairs.find((pair) => isMergeKey(pair.key));
  const ranked = pairs.filter((pair) => {
    const rank = order.indexOf(keyText(pair.key) ?? '');
    return rank !== -1 && rank < place;
  });
  const highest = ranked.reduce<Pair<Node> | undefined>(
    (best, pair) => (rankOf(pair, order) > rankOf(best, order) ? pair : best),
    undefined,
  );
  return highest ?? merge ?? pairs[0];
}

function rankOf(pair: Pair<Node> | undefined, order: readonly string[]): number {
  return pair ? order.indexOf(keyText(pair.key) ?? '') : -1;
}

/** `a: 1` as an item of a flow list needs braces before it can hold a second entry. */
function wrapped(map: YAMLMap, entries: readonly (readonly [string, string])[]): TextEdit[] {
  const { start, end } = rangeOf(map);
  const more = entries.map(([key, value]) => `, ${key}: ${value}`).join('');
  return [insertion(start, '{ '), insertion(end, `${more} }`)];
}

function insertion(at: number, text: string): TextEdit {
  return { start: at, end: at, text };
}
