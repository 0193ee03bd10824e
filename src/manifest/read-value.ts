import type { Alias, YAMLMap } from 'yaml';
import type { Aspect, Located, Measure, TextRange } from './manifest.ts';
import type { WrittenMap } from './written.ts';

/** A value that fits its schema. */
export type ReadValue = string | number | boolean | Aspect | Measure | ReadMap | ReadList;

export interface ReadMap {
  readonly kind: 'map';
  readonly range: TextRange;
  readonly entries: ReadonlyMap<string, Located<ReadValue>>;
  /** Keys that are there, but whose value does not fit or is broken YAML; problems say why. */
  readonly unread: ReadonlyMap<string, TextRange>;
  /** The map as it is written, or the alias that stands for it. */
  readonly node: YAMLMap | Alias;
  /** Maps that an alias or merge keys bring in. */
  readonly sources: readonly TextRange[];
  /** Keys whose YAML is broken. */
  readonly broken: ReadonlySet<string>;
}

/** The map as edits need it. */
export function writtenMap({ node, sources, broken }: ReadMap): WrittenMap {
  return { node, sources, broken };
}

export interface ReadList {
  readonly kind: 'list';
  readonly items: readonly ReadItem[];
  /** Items that do not fit included. */
  readonly count: number;
}

export interface ReadItem extends Located<ReadValue> {
  readonly index: number;
}

/**
 * The entry of a key, as the type that the key's schema gives: the schema was checked by read.ts, and schema.test.ts
 * holds the two together.
 */
export function entry<T>(map: ReadMap, key: string): Located<T> | undefined {
  return map.entries.get(key) as Located<T> | undefined;
}
