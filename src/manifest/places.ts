import type { Node, Pair } from 'yaml';
import { isCollection, isPair, isScalar } from 'yaml';
import { isMergeKey, keyText } from './aliases.ts';
import type { TextRange } from './manifest.ts';
import { endOf, isEmptyText, separatorEnd, startOf, valueRange } from './ranges.ts';

/** The entry of `key` that a map has of its own: the first, as read.ts takes it. */
export function ownPair(map: Node, key: string): Pair<Node> | undefined {
  if (!isCollection(map)) return undefined;
  return (map.items as Pair<Node>[]).find((pair) => !isMergeKey(pair.key) && keyText(pair.key) === key);
}

/** Where an entry begins: with the anchor, tag or `?` in front of its key. */
export function pairStart(pair: Pair<Node>): number {
  const first = pair.srcToken?.start.find((token) => ['explicit-key-ind', 'anchor', 'tag'].includes(token.type));
  return first?.offset ?? startOf(pair.key);
}

export function pairEnd(pair: Pair<Node>): number {
  return Math.max(valueRange(pair).end, endOf(pair.key));
}

/** Where the value begins with its anchor and tag. */
export function propertiesStart(pair: Pair<Node>): number | undefined {
  return pair.srcToken?.sep?.find(({ type }) => type === 'anchor' || type === 'tag')?.offset;
}

export function hasTag(pair: Pair<Node>): boolean {
  return pair.srcToken?.sep?.some(({ type }) => type === 'tag') ?? false;
}

/** Where a value goes that is not there yet: after the colon, and after an anchor or tag that waits for it. */
export function emptyValuePlace(pair: Pair<Node>): number | undefined {
  const properties = pair.srcToken?.sep?.findLast(({ type }) => type === 'anchor' || type === 'tag');
  return properties ? properties.offset + properties.source.length : separatorEnd(pair);
}

/** `|` and `>` reach to the line after their last: nothing can be put on "the end of their line". */
export function endsInBlockScalar(node: Node | null): boolean {
  let last: unknown = node;
  while (isCollection(last) || isPair(last)) last = isPair(last) ? last.value : last.items.at(-1);
  return isScalar(last) && last.type !== undefined && last.type.startsWith('BLOCK');
}

/** The value's range without the line breaks that a block scalar or list ends with. */
export function trimmedRange(text: string, pair: Pair<Node>): TextRange {
  const { start, end } = valueRange(pair);
  return { start, end: start + text.slice(start, end).trimEnd().length };
}

export function hasValue(pair: Pair<Node>): boolean {
  const value = pair.value as Node | null;
  return value !== null && !isEmptyText(value);
}

/** How many characters stand before `offset` on its line. */
export function columnOf(text: string, offset: number): number {
  return offset - (text.lastIndexOf('\n', offset - 1) + 1);
}

/** The column of a block map's keys; -1 in flow style, where it does not matter. */
export function indentOf(map: Node): number {
  return map.srcToken?.type === 'block-map' ? map.srcToken.indent : -1;
}
