import type { Node, YAMLMap } from 'yaml';
import { isAlias, isMap, isScalar, isSeq, Scalar } from 'yaml';
import { INPUT_LIMITS } from '../input-limits.ts';
import type { Anchors } from './anchors.ts';

/** Everything that following aliases may run into. */
export type AliasFault = 'unknown-alias' | 'too-many-aliases';

/**
 * Follows aliases and merge keys, at most `ALIAS_LIMIT` per frame, so that a few lines cannot stand for millions
 * (yaml's own `maxAliasCount` has the same default, for the whole document).
 */
export class AliasWalk {
  readonly #anchors: Anchors;
  #left = ALIAS_LIMIT;

  constructor(anchors: Anchors) {
    this.#anchors = anchors;
  }

  restart(): void {
    this.#left = ALIAS_LIMIT;
  }

  /** The node that `node` stands for: itself, or what its alias means. */
  follow(node: Node): Node | AliasFault {
    if (!isAlias(node)) return node;
    if (this.#left === 0) return 'too-many-aliases';
    this.#left--;
    return this.#anchors.target(node) ?? 'unknown-alias';
  }
}

export const ALIAS_LIMIT = INPUT_LIMITS.aliases.most;

/** The text of a key: what a scalar says, numbers as they are written. */
export function keyText(key: Node | null): string | undefined {
  if (!isScalar(key)) return undefined;
  if (typeof key.value === 'string') return key.value;
  return key.source === undefined || key.source === '' ? undefined : key.source;
}

/** A plain `<<`, as YAML 1.1 defines merging; in quotes it is a key like any other. */
export function isMergeKey(key: Node | null): boolean {
  return isScalar(key) && key.source === '<<' && key.type === Scalar.PLAIN;
}

/** The maps that a merge entry names: one, or a list of which the earlier ones count more. */
export function mergedMaps(value: Node | null, walk: AliasWalk): (YAMLMap | AliasFault | undefined)[] {
  if (!value) return [undefined];
  const node = walk.follow(value);
  if (typeof node === 'string') return [node];
  if (isMap(node)) return [node];
  if (!isSeq(node)) return [undefined];
  return node.items.map((item) => {
    const each = walk.follow(item as Node);
    return typeof each === 'string' || isMap(each) ? each : undefined;
  });
}
