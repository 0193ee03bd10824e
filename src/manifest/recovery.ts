import type { Node, Pair } from 'yaml';
import { YAMLMap, YAMLSeq } from 'yaml';
import type { Fault } from './compose.ts';
import type { TextRange } from './manifest.ts';

/** A fault, and what is lost by it. */
export interface LocatedFault {
  readonly fault: Fault;
  readonly consequence?: string;
  /** Place in `frames`, from 0. */
  readonly frame?: number;
  /** The key over the frames that is left out. */
  readonly key?: string;
}

/** Collects what could be read, piece by piece, and what could not. */
export class Recovery {
  readonly faults: LocatedFault[] = [];
  /** Keys whose YAML is broken, by the map that they stand in. */
  readonly brokenKeys = new Map<Node, Map<string, TextRange>>();
  /** Entries of lists of which nothing could be read. */
  readonly brokenItems = new Set<Node>();

  addFault(fault: Fault, consequence?: string, frame?: number, key?: string): void {
    this.faults.push({
      fault,
      ...(consequence !== undefined && { consequence }),
      ...(frame !== undefined && { frame }),
      ...(key !== undefined && { key }),
    });
  }

  addBrokenKey(map: Node, key: string, range: TextRange): void {
    const keys = this.brokenKeys.get(map) ?? new Map<string, TextRange>();
    this.brokenKeys.set(map, keys.set(key, range));
  }
}

/** A block map put together from pairs that were read one by one. */
export function blockMap(pairs: readonly Pair[], start: number, end: number, indent: number): YAMLMap {
  const map = new YAMLMap();
  map.items.push(...pairs);
  map.range = [start, end, end];
  map.srcToken = { type: 'block-map', offset: start, indent, items: [] };
  return map;
}

/** A block list put together from items that were read one by one. */
export function blockList(items: readonly Node[], start: number, end: number, indent: number): YAMLSeq {
  const list = new YAMLSeq();
  list.items.push(...items);
  list.range = [start, end, end];
  list.srcToken = { type: 'block-seq', offset: start, indent, items: [] };
  return list;
}
