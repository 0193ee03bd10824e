import type { Alias, Node, Pair, YAMLMap } from 'yaml';
import { isAlias, isCollection, isMap, isScalar } from 'yaml';
import type { TextRange } from './manifest.ts';
import { insertEntries } from './insert-entries.ts';
import type { NewMap, NewValue } from './new-value.ts';
import { flowText } from './new-value.ts';
import {
  columnOf, emptyValuePlace, hasTag, hasValue, indentOf, ownPair, pairEnd, pairStart, propertiesStart, trimmedRange,
} from './places.ts'; // prettier-ignore
import { rangeOf, styleOf, valueRange } from './ranges.ts';
import { textOf } from './scalars.ts';
import type { TextEdit } from './text-edit.ts';
import { lineBreakAt, lineEnd } from './text-edit.ts';

/** The text that is edited, and what of it more than one place uses. */
export interface EditContext {
  readonly text: string;
  readonly shared: readonly TextRange[];
}

/** What a place holds now, by its own writing or through aliases and merge keys; compared with what is to be set. */
export type OldValue = string | number | boolean | null | ReadonlyMap<string, OldValue>;

/**
 * Sets entries of a map, in the order given, with the fewest characters changed: values that are there already stay as
 * they are written, other values are replaced, missing entries are inserted. `order` says after which keys a new one
 * goes. Text that aliases use elsewhere is never changed.
 */
export function setEntries(
  context: EditContext,
  map: YAMLMap | Alias,
  values: NewMap['members'],
  old: ReadonlyMap<string, OldValue>,
  order: readonly string[] = [],
): TextEdit[] {
  const edits: TextEdit[] = [];
  const missing = new Map<string, string>();
  for (const [key, value] of values) {
    const pair = isAlias(map) ? undefined : ownPair(map, key);
    if (pair) edits.push(...setPair(context, map as YAMLMap, pair, value, old.get(key)));
    else if (!sameValue(old.get(key), value)) missing.set(key, flowText(value));
  }
  if (missing.size === 0) return edits;
  if (!isAlias(map)) return [...edits, ...insertEntries(context.text, map, missing, order)];
  const entries = [...missing].map(([key, text]) => `${key}: ${text}`);
  return [{ ...rangeOf(map), text: `{ <<: *${map.source}, ${entries.join(', ')} }` }];
}

function setPair(
  context: EditContext,
  map: YAMLMap,
  pair: Pair<Node>,
  value: NewValue,
  old: OldValue | undefined,
): TextEdit[] {
  const edits = pairEdits(context, map, pair, value, old);
  if (edits.length === 0) return edits;
  const start = propertiesStart(pair) ?? valueRange(pair).start;
  return holdsShared(context.shared, start, pairEnd(pair)) ? keepBeside(context.text, map, pair, value) : edits;
}

/** Whether text that aliases use lies between two offsets. */
function holdsShared(shared: readonly TextRange[], start: number, end: number): boolean {
  let low = 0;
  let high = shared.length;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (shared[middle]!.start < start) low = middle + 1;
    else high = middle;
  }
  // Ranges nest, so the first that begins here may reach beyond `end` while a later one does not.
  for (let at = low; at < shared.length && shared[at]!.start <= end; at++) if (shared[at]!.end <= end) return true;
  return false;
}

function pairEdits(
  context: EditContext,
  map: YAMLMap,
  pair: Pair<Node>,
  value: NewValue,
  old: OldValue | undefined,
): TextEdit[] {
  const node = pair.value as Node | null;
  if (node === null || !hasValue(pair)) return fillEmpty(context.text, map, pair, value);
  if (!('members' in value)) {
    const same = isScalar(node) && (typeof value.value === 'string' ? textOf(node) : node.value) === value.value;
    return same ? [] : [replacement(context.text, map, pair, value)];
  }
  const known = old instanceof Map ? (old as ReadonlyMap<string, OldValue>) : new Map<string, OldValue>();
  // An alias that already gives these values stays one.
  if (isAlias(node) && sameValue(old, value)) return [];
  if (isMap(node)) return setEntries(context, node, value.members, known, [...value.members.keys()]);
  return [replacement(context.text, map, pair, value)];
}

function replacement(text: string, map: YAMLMap, pair: Pair<Node>, value: NewValue): TextEdit {
  const { start, end } = trimmedRange(text, pair);
  const node = pair.value as Node;
  const from = hasTag(pair) ? propertiesStart(pair)! : start;
  // A block list may stand as far left as its key; what takes its place may not.
  const indent = indentOf(map);
  const inBlock = isCollection(node) && node.srcToken?.type !== 'flow-collection';
  const missing = inBlock ? Math.max(0, indent + 1 - columnOf(text, from)) : 0;
  return { start: from, end, text: ' '.repeat(missing) + flowText(value) };
}

function fillEmpty(text: string, map: YAMLMap, pair: Pair<Node>, value: NewValue): TextEdit[] {
  const at = emptyValuePlace(pair);
  if (at !== undefined) return [{ start: at, end: at, text: ` ${flowText(value)}` }];
  const end = rangeOf(pair.key).end;
  if (styleOf(map) !== 'block') return [{ start: end, end, text: `: ${flowText(value)}` }];
  // `? key` alone: its value begins a line of its own.
  const place = lineEnd(text, end);
  const indentation = lineBreakAt(text, end) + ' '.repeat(indentOf(map));
  return [{ start: place, end: place, text: `${indentation}: ${flowText(value)}` }];
}

/**
 * Others use the text of this value through an alias, and must keep what they have. So the old text stays where it is,
 * anchor and all, under a key of the user's own (`x-crop`), and the new value gets the key: one place of the file
 * changes, not every user of the anchor.
 */
function keepBeside(text: string, map: YAMLMap, pair: Pair<Node>, value: NewValue): TextEdit[] {
  const key = rangeOf(pair.key);
  const name = String((pair.key as { value?: unknown }).value);
  let kept = `x-${name}`;
  for (let number = 2; ownPair(map, kept); number++) kept = `x-${name}-${number}`;
  const start = pairStart(pair);
  const style = styleOf(map);
  const between = style === 'block' ? lineBreakAt(text, start) + ' '.repeat(indentOf(map)) : ', ';
  return [
    { start, end: start, text: `${name}: ${flowText(value)}${between}` },
    { ...key, text: kept },
  ];
}

function sameValue(old: OldValue | undefined, value: NewValue): boolean {
  if (old === undefined) return false;
  if (!('members' in value)) return old === value.value;
  if (!(old instanceof Map)) return false;
  const known = old as ReadonlyMap<string, OldValue>;
  return [...value.members].every(([key, member]) => sameValue(known.get(key), member));
}
