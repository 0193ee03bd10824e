import type { Node, Pair, Scalar } from 'yaml';
import { isAlias, isCollection, isPair, isScalar, Scalar as ScalarNode } from 'yaml';
import { isMergeKey } from './aliases.ts';
import type { TextRange } from './manifest.ts';

/** Words and numbers with nothing in them that YAML could take for anything else, in block and in flow style. */
const WORDS = /^[+-]?\.?[\p{L}\p{N}_][\p{L}\p{N}_.+/-]*(?: [\p{L}\p{N}_][\p{L}\p{N}_.+/-]*)*$/u;

/** Whether a text is safe as a plain scalar wherever it stands: it ends no value and begins nothing else. */
export function isPlainWords(text: string): boolean {
  return WORDS.test(text);
}

/**
 * The plain value that holds a range, when the entry is on its own: without anchors, aliases, merge keys and tags, so
 * that nothing outside it depends on it and it depends on nothing outside.
 */
export function plainValueAt(entry: Node, { start, end }: TextRange): Scalar | undefined {
  let found: Scalar | undefined;
  const waiting: unknown[] = [entry];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (next === null) continue;
    if (isPair(next)) {
      const { key, value } = next as Pair<Node, Node | null>;
      if (!isScalar(key) || !isOwn(key) || isMergeKey(key)) return undefined;
      waiting.push(value);
      continue;
    }
    const node = next as Node;
    if (!isOwn(node)) return undefined;
    if (isCollection(node)) waiting.push(...node.items);
    else if (isScalar(node) && node.type === ScalarNode.PLAIN && holds(node, start, end)) found = node;
  }
  return found;
}

function isOwn(node: Node): boolean {
  return !isAlias(node) && node.anchor === undefined && node.tag === undefined;
}

function holds({ range }: Scalar, start: number, end: number): boolean {
  return range !== null && range !== undefined && range[0] <= start && end <= range[1];
}
