import type { Node } from 'yaml';
import { isSeq } from 'yaml';
import type { Manifest, Problem } from './manifest.ts';
import { ownPair } from './places.ts';

/** Where each entry of `frames` begins: the offset of its line, by the frame's index. */
export type FrameLines = readonly number[];

/** YAML's own directives, such as `%YAML 1.1`, change what every value means. */
const DIRECTIVE = /^\uFEFF?%/m;
const NOT_WHOLE = new Set(['yaml', 'unfinished-merge', 'tab', 'several-documents']);

/**
 * The lines that the entries of `frames` begin on, when each entry can be read alone: the YAML is in order, and the
 * list is in block style, one dash a line.
 */
export function frameLines({ text, written, problems }: Manifest): FrameLines | undefined {
  if (!written || DIRECTIVE.test(text) || problems.some(isBreak)) return undefined;
  const list = ownPair(written.node, 'frames')?.value as Node | null | undefined;
  if (!isSeq(list) || list.srcToken?.type !== 'block-seq') return undefined;
  const dashes = list.srcToken.items.flatMap(({ start }) => start.find(({ type }) => type === 'seq-item-ind') ?? []);
  if (dashes.length !== list.items.length) return undefined;
  const lines = dashes.map(({ offset }) => text.lastIndexOf('\n', offset - 1) + 1);
  return lines.every((line, at) => isBlank(text, line, dashes[at]!.offset)) ? lines : undefined;
}

function isBreak({ code, severity }: Problem): boolean {
  return severity === 'error' && NOT_WHOLE.has(code);
}

function isBlank(text: string, start: number, end: number): boolean {
  for (let at = start; at < end; at++) if (text[at] !== ' ') return false;
  return true;
}
