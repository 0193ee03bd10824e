import type { Node, Pair } from 'yaml';
import { isAlias, isMap, isScalar, isSeq } from 'yaml';
import type { AliasFault, AliasWalk } from './aliases.ts';
import { ALIAS_LIMIT, isMergeKey, keyText, mergedMaps } from './aliases.ts';
import { joinCommaNumbers } from './comma-numbers.ts';
import type { Located, Problem, ProblemCode, TextRange } from './manifest.ts';
import { checkKeys } from './map-checks.ts';
import type { ReadItem, ReadList, ReadMap, ReadValue } from './read-value.ts';
import type { Recovery } from './recovery.ts';
import { isEmptyText, rangeOf, startOf, valueRange } from './ranges.ts';
import { matches, readScalar } from './scalars.ts';
import type { KeySchema, ListSchema, MapSchema, Schema } from './schema-kinds.ts';
import { meaningOf, nameOf, pathOf, type Place } from './place-words.ts';
import { nearestWord } from './spelling.ts';

/** Keys for our own use of somebody else: allowed everywhere, never looked at. */
const FREE_KEY = 'x-';

/** What is known of a map while it is read. */
interface Filling {
  readonly known: Set<string>;
  readonly entries: Map<string, Located<ReadValue>>;
  readonly unread: Map<string, TextRange>;
}

const NONE: ReadonlySet<string> = new Set();

/** An optional key whose value is `null`. */
const NOT_SET = Symbol('not set');

/** Reads values by their schema. What does not fit is left out and becomes a problem. */
export class Reader {
  readonly problems: Problem[] = [];
  readonly #walk: AliasWalk;
  readonly #recovery: Recovery;
  #frame: number | undefined;
  /** The key of the manifest itself that is being read. */
  #topKey: string | undefined;
  #aliasesReported = false;

  constructor(walk: AliasWalk, recovery: Recovery) {
    this.#walk = walk;
    this.#recovery = recovery;
  }

  /** A value by its schema, `undefined` when it does not fit. */
  read(node: Node, schema: Schema, place: Place): ReadValue | undefined {
    const target = this.#walk.follow(node);
    if (typeof target === 'string') {
      this.#reportAlias(target, place.seen ?? rangeOf(node));
      return undefined;
    }
    const inside = target === node || place.seen ? place : { ...place, seen: rangeOf(node) };
    if (isMap(target)) {
      const map = schema.kind === 'severity-or-map' ? schema.map : schema;
      if (map.kind === 'map') return this.#readMap(target, map, inside, isAlias(node) ? node : target);
    } else if (isSeq(target)) {
      if (schema.kind === 'list') return this.#readList(target.items as Node[], schema, inside, target);
    } else if (isScalar(target)) {
      const choice = schema.kind === 'severity-or-map' ? schema.map.keys.get('severity')!.value : schema;
      const result = readScalar(target, choice);
      if ('value' in result) return result.value;
      const { code, message, suggestion } = result.fault;
      this.report(
        code,
        `${nameOf(place)} ${message}${message.endsWith('?') ? '' : '.'}`,
        inside.seen ?? rangeOf(target),
        'error',
        suggestion,
      );
      return undefined;
    }
    const kind = isMap(target) ? 'a map' : 'a list';
    this.report(
      'wrong-kind',
      `${nameOf(place)} cannot be ${kind}: ${meaningOf(schema)}.`,
      inside.seen ?? rangeOf(target),
    );
    return undefined;
  }

  report(
    code: ProblemCode,
    message: string,
    range: TextRange,
    severity: Problem['severity'] = 'error',
    suggestion?: string,
  ): void {
    this.problems.push({
      code,
      message,
      range,
      severity,
      ...(suggestion !== undefined && { suggestion }),
      ...(this.#frame !== undefined && { frame: this.#frame }),
      ...(this.#topKey !== undefined && this.#frame === undefined && { key: this.#topKey }),
    });
  }

  #readMap(map: Node & { items: unknown[] }, schema: MapSchema, place: Place, node: ReadMap['node']): ReadMap {
    const entries = new Map<string, Located<ReadValue>>();
    const brokenKeys = this.#recovery.brokenKeys.get(map);
    const broken = brokenKeys ? new Set(brokenKeys.keys()) : NONE;
    const unread = new Map(brokenKeys);
    const known = new Set<string>();
    const merges: Pair<Node>[] = [];
    const sources = isAlias(node) ? [rangeOf(map)] : [];
    for (const pair of joinCommaNumbers(map.items as Pair<Node>[])) {
      if (isMergeKey(pair.key)) merges.push(pair);
      else this.#readPair(pair, schema, place, { known, entries, unread });
    }
    for (const merge of merges) this.#readMerge(merge, schema, place, { known, entries, unread, sources });
    const range = place.seen ?? rangeOf(map);
    const isTop = place.key === '' && this.#frame === undefined;
    checkKeys(schema, entries, unread, (code, message, at, key) => {
      if (isTop) this.#topKey = key;
      this.report(code, message(pathOf(place)), at ?? (place.seen ? range : firstKeyRange(map)));
      if (isTop) this.#topKey = undefined;
    });
    return { kind: 'map', range, entries, unread, node, sources, broken };
  }

  /** Reads what `<<` brings: of each key only where the map itself has none. */
  #readMerge(
    merge: Pair<Node>,
    schema: MapSchema,
    place: Place,
    filling: Filling & { readonly sources: TextRange[] },
  ): void {
    const { known, sources } = filling;
    const seen = place.seen ?? valueRange(merge);
    const waiting = [merge];
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      for (const merged of mergedMaps(next.value as Node | null, this.#walk)) {
        if (typeof merged === 'string') {
          this.#reportAlias(merged, seen);
        } else if (!merged) {
          this.report('wrong-kind', 'A merge key (<<) brings in a map, or a list of maps, by their aliases.', seen);
        } else {
          sources.push(rangeOf(merged));
          const earlier = new Set(known);
          for (const pair of joinCommaNumbers(merged.items as Pair<Node>[])) {
            if (isMergeKey(pair.key)) waiting.push(pair);
            else if (!earlier.has(keyText(pair.key) ?? '')) {
              this.#readPair(pair, schema, { ...place, seen }, filling);
            }
          }
        }
      }
    }
  }

  #readPair(pair: Pair<Node>, schema: MapSchema, place: Place, { known, entries, unread }: Filling): void {
    const key = keyText(pair.key);
    const keyRange = place.seen ?? rangeOf(pair.key);
    if (key === undefined) {
      this.report('unknown-key', 'A key must be a plain word.', keyRange, 'warning');
      return;
    }
    if (key.startsWith(FREE_KEY)) return;
    const isTop = place.key === '' && place.parent === undefined && this.#frame === undefined;
    if (isTop) this.#topKey = key;
    this.#readKey(key, pair, schema, place, { known, entries, unread });
    if (isTop) this.#topKey = undefined;
  }

  #readKey(key: string, pair: Pair<Node>, schema: MapSchema, place: Place, { known, entries, unread }: Filling): void {
    const keyRange = place.seen ?? rangeOf(pair.key);
    if (known.has(key) || (this.#recovery.brokenKeys.size > 0 && unread.has(key))) {
      const name = pathOf({ key, parent: place });
      this.report('duplicate-key', `${name} stands here twice: the first one counts. Remove one of them.`, keyRange);
      return;
    }
    known.add(key);
    const entry = this.#schemaOf(key, keyRange, schema, place);
    if (!entry) return;
    const range = place.seen ?? valueRange(pair);
    const value = this.#readEntry(pair, entry, { key, parent: place, ...(place.seen && { seen: place.seen }) });
    if (value === NOT_SET) return;
    if (value === undefined) {
      unread.set(key, range);
      return;
    }
    const origin = this.#origin(pair.value as Node, place);
    entries.set(key, { value, range, key: keyRange, ...(origin && { origin }) });
  }

  #origin(value: Node, place: Place): TextRange | undefined {
    if (!isAlias(value)) return place.seen && rangeOf(value);
    const target = this.#walk.follow(value);
    return typeof target === 'string' ? undefined : rangeOf(target);
  }

  #readEntry(pair: Pair<Node>, entry: KeySchema, place: Place): ReadValue | typeof NOT_SET | undefined {
    const value = pair.value as Node | null;
    const empty = !value || isEmptyText(value);
    if (!empty && !(isScalar(value) && value.value === null)) return this.read(value, entry.value, place);
    const range = place.seen ?? rangeOf(pair.key);
    if (entry.value.kind === 'text' && entry.value.emptyMessage !== undefined) {
      this.report('empty-reason', `${pathOf(place)} ${entry.value.emptyMessage}.`, range);
    } else if (empty || !entry.nullable) {
      const remedy = `write one, such as ${entry.example}${entry.required ? '' : ', or remove the key'}`;
      this.report('no-value', `${pathOf(place)} has no value: ${remedy}.`, range, entry.nullable ? 'warning' : 'error');
    }
    return entry.nullable ? NOT_SET : undefined;
  }

  #schemaOf(key: string, range: TextRange, schema: MapSchema, place: Place): KeySchema | undefined {
    const fixed = schema.keys.get(key);
    if (fixed) return fixed;
    const { dynamic } = schema;
    const [, meant, value] = /^([a-z]+)(?::| +)([^\s:].{0,60})$/.exec(key) ?? [];
    if (meant !== undefined && schema.keys.has(meant)) {
      const written = `${meant}: ${value}`;
      const what = key.startsWith(`${meant}:`) ? 'a space is missing after the colon' : 'a colon is missing';
      this.report('unknown-key', `"${key}" is no key: ${what}. Write "${written}".`, range, 'warning', written);
      return undefined;
    }
    if (dynamic && matches(key, dynamic.pattern)) return dynamic;
    if (isOfAnItem(key, schema)) {
      this.report(
        'unknown-key',
        `"${key}" belongs to a frame: indent it as the other keys of its frame.`,
        range,
        'warning',
      );
      return undefined;
    }
    const suggestion = nearestWord(key, schema.keys.keys());
    const where = place.key === '' ? '' : ` in ${pathOf(place)}`;
    const hint = suggestion === undefined ? '' : ` Did you mean ${suggestion}?`;
    const what = dynamic ? `: ${dynamic.name}s are named ${dynamic.patternMeaning}` : '';
    const message = `"${key.slice(0, 60)}" is not a key that I know${where}${what}.${hint} (Keys of your own begin with x-.)`;
    this.report('unknown-key', message, range, 'warning', suggestion);
    return undefined;
  }

  #readList(items: readonly Node[], schema: ListSchema, place: Place, list: Node): ReadList {
    const read: ReadItem[] = [];
    if (items.length < (schema.minimumItems ?? 0)) {
      this.report('out-of-bounds', `${pathOf(place)} is empty: ${schema.meaning ?? ''}.`, place.seen ?? rangeOf(list));
    }
    for (const [index, item] of items.entries()) {
      if (this.#recovery.brokenItems.has(item)) continue;
      const one = this.readItem(item, index, schema, place);
      if (one) read.push(one);
    }
    return { kind: 'list', items: read, count: items.length };
  }

  /** One item of a list, `undefined` when it does not fit; `place` is the list's. */
  readItem(item: Node, index: number, schema: ListSchema, place: Place): ReadItem | undefined {
    if (schema.numbered) this.#beginItem(index);
    const range = place.seen ?? rangeOf(item);
    // A numbered item's own keys say where they are: `crop.w`, not `frames.3.crop.w`; the line says which frame.
    const inside: Place = schema.numbered ? { key: '' } : { key: String(index + 1), parent: place, isItem: true };
    const value = this.read(item, schema.item, place.seen ? { ...inside, seen: place.seen } : inside);
    if (schema.numbered) this.#beginItem(undefined);
    return value === undefined ? undefined : { index, value, range, key: range };
  }

  #beginItem(index: number | undefined): void {
    this.#frame = index;
    this.#aliasesReported = false;
    this.#walk.restart();
  }

  #reportAlias(fault: AliasFault, range: TextRange): void {
    if (fault === 'unknown-alias') {
      this.report(
        fault,
        'No anchor of this name stands before this alias: write &name at what it should repeat.',
        range,
      );
      return;
    }
    if (this.#aliasesReported) return;
    this.#aliasesReported = true;
    this.report(fault, `This leads through more than ${ALIAS_LIMIT} aliases: write the values out.`, range);
  }
}

function firstKeyRange(map: Node & { items: unknown[] }): TextRange {
  const first = map.items[0] as Pair<Node> | undefined;
  return first ? rangeOf(first.key) : { start: startOf(map), end: rangeOf(map).end };
}

/** Whether it is a key of the entries of one of the map's lists: written so far left, it has left its entry. */
function isOfAnItem(key: string, { keys }: MapSchema): boolean {
  return [...keys.values()].some(
    ({ value }) => value.kind === 'list' && value.item.kind === 'map' && value.item.keys.has(key),
  );
}
