import type { Alias, YAMLMap } from 'yaml';

/** A map as it stands in the text; its tokens say where an edit must go. */
export interface WrittenMap {
  /** The map itself, or the alias that stands for one. */
  readonly node: YAMLMap | Alias;
}
