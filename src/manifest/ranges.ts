import type { Node, Pair } from 'yaml';
import { isCollection, isMap, isPair } from 'yaml';
import type { TextRange } from './manifest.ts';

/** Where a parsed node begins, its anchor and tag left out. */
export function startOf(node: Node): number {
  return node.range?.[0] ?? 0;
}

/**
 * Where the text of a node ends. yaml counts the comments and blank lines after a block map or list to it; here it ends
 * with its last value.
 */
export function endOf(node: Node): number {
  let last: Node = node;
  while (isCollection(last) && !closesItself(last)) {
    const item: unknown = last.items.at(-1);
    if (!item) break;
    if (!isPair(item)) {
      last = item as Node;
      continue;
    }
    const value = item.value as Node | null;
    if (!value || isEmptyText(value)) return separatorEnd(item as Pair<Node>) ?? endOf(item.key as Node);
    last = value;
  }
  return last.range?.[1] ?? 0;
}

/** Flow maps and lists end with a bracket of their own; a bare `a: 1` in a flow list does not. */
function closesItself(node: Node): boolean {
  return node.srcToken?.type === 'flow-collection';
}

/** A value that is not there: `crop:` and nothing. */
export function isEmptyText(node: Node): boolean {
  return node.range !== null && node.range !== undefined && node.range[0] === node.range[1];
}

export function rangeOf(node: Node): TextRange {
  return { start: startOf(node), end: endOf(node) };
}

/** The end of the `:` between key and value; undefined when there is none. */
export function separatorEnd(pair: Pair<Node>): number | undefined {
  const colon = pair.srcToken?.sep?.find((token) => token.type === 'map-value-ind');
  return colon && colon.offset + colon.source.length;
}

/** The range of an entry's value; just after the colon when it is empty. */
export function valueRange(pair: Pair<Node>): TextRange {
  const value = pair.value as Node | null;
  if (value && !isEmptyText(value)) return rangeOf(value);
  const at = separatorEnd(pair) ?? endOf(pair.key);
  return { start: at, end: at };
}

/** Whether the map is written in block style or with braces; `bare` is `a: 1` as an item of a flow list. */
export function styleOf(map: Node): 'block' | 'flow' | 'bare' {
  if (!isMap(map) || !map.srcToken) return 'bare';
  return map.srcToken.type === 'flow-collection' ? 'flow' : 'block';
}
