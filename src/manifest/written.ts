import type { Alias, YAMLMap } from 'yaml';
import type { TextRange } from './manifest.ts';

/** A map as it stands in the text; its tokens say where an edit must go. */
export interface WrittenMap {
  /** The map itself, or the alias that stands for one. */
  readonly node: YAMLMap | Alias;
  /** Maps elsewhere in the text that an alias or merge keys bring in. */
  readonly sources: readonly TextRange[];
  /** Keys whose YAML is broken: no edit touches them. */
  readonly broken: ReadonlySet<string>;
}
