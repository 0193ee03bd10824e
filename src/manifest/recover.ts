import type { Node, ParsedNode } from 'yaml';
import { isMap, Pair, Scalar } from 'yaml';
import type { Composed, Fault } from './compose.ts';
import { compose } from './compose.ts';
import { isWarning } from './faults.ts';
import type { Line } from './lines.ts';
import { isItem, keyOf, splitLines } from './lines.ts';
import { withoutMergeMarkers } from './merge-markers.ts';
import { recoverFrame } from './recover-frame.ts';
import { blockList, blockMap, Recovery } from './recovery.ts';

export interface Recovered {
  readonly root: Node | null;
  readonly recovery: Recovery;
}

/**
 * Reads a text whose YAML is broken. yaml goes on after an error as well as it can, but may swallow what follows; so
 * the text is cut into its top-level keys, `frames` into its entries, and a broken entry into its keys, and each piece
 * is read alone, at its own offset. A piece that is still broken is left out and named.
 */
export function recover(written: string, end: number, whole: Composed): Recovered {
  const recovery = new Recovery();
  const { text, faults } = withoutMergeMarkers(written);
  for (const fault of faults) recovery.addFault(fault);
  const lines = splitLines(text, end);
  const starts = lines.flatMap((line, at) => (beginsKey(line) ? [at] : []));
  if (starts.length === 0) return { root: contentsBefore(whole, recovery), recovery };
  const pairs: Pair[] = [];
  const root = blockMap([], lines[starts[0]!]!.start, end, 0);
  for (const [place, at] of starts.entries()) {
    const piece = lines.slice(at, starts[place + 1] ?? lines.length);
    const first = piece[0]!;
    const last = piece.at(-1)!;
    if (holdsFrames(piece)) {
      pairs.push(recoverFrames(text, piece, recovery));
      continue;
    }
    const read = compose(text.slice(first.start, last.end), first.start);
    const fault = firstError(read) ?? (isMap(read.contents) ? undefined : noKey(first));
    if (fault) {
      const key = keyOf(first.content);
      const consequence = key === undefined ? 'The line is left out.' : `"${key.slice(0, 60)}" is left out.`;
      recovery.addFault(fault, consequence, undefined, key ?? /^[a-z]+/.exec(first.content)?.[0]);
      if (key !== undefined) recovery.addBrokenKey(root, key, { start: first.start, end: last.end });
    } else if (isMap(read.contents)) {
      pairs.push(...(read.contents.items as Pair[]));
    }
  }
  root.items.push(...pairs);
  if (recovery.faults.length === 0) recovery.addFault(firstError(whole)!);
  return { root, recovery };
}

export function firstError(composed: Composed): Fault | undefined {
  return composed.faults.find((fault) => !isWarning(fault));
}

function noKey(line: Line): Fault {
  const end = line.start + line.indent + line.content.length;
  return { code: 'NO_KEY', message: 'expected "key: value" here', start: line.start + line.indent, end };
}

/** A manifest in braces cannot be cut at its lines: what yaml made of it is taken. */
function contentsBefore(whole: Composed, recovery: Recovery): ParsedNode | null {
  recovery.addFault(firstError(whole)!, 'What stands after it may be missing.');
  return whole.contents;
}

function beginsKey({ indent, content }: Line): boolean {
  if (indent > 0 || content === '' || isItem(content)) return false;
  return !/^(---|\.\.\.|%|[}\]])/.test(content) && !content.startsWith('{') && !content.startsWith('[');
}

/** `frames:` alone on its line, its entries in block style below. */
function holdsFrames(piece: readonly Line[]): boolean {
  if (!/^(["']?)frames\1\s*:\s*(#.*)?$/.test(piece[0]!.content)) return false;
  const below = piece.slice(1).find((line) => line.content !== '');
  return below !== undefined && isItem(below.content);
}

function recoverFrames(text: string, piece: readonly Line[], recovery: Recovery): Pair {
  const header = piece[0]!;
  const from = piece.findIndex((line) => isItem(line.content));
  const { indent, start } = piece[from]!;
  const begins = (line: Line): boolean =>
    isItem(line.content) && (line.indent <= indent || /^-\s+["']?photo["']?\s*:/.test(line.content));
  const starts = piece.flatMap((line, at) => (begins(line) ? [at] : []));
  const items = starts.map((at, frame) =>
    recoverFrame(text, piece.slice(at, starts[frame + 1] ?? piece.length), frame, recovery),
  );
  const list = blockList(items, start + indent, piece.at(-1)!.end, indent);
  const read = compose(text.slice(header.start, header.end), header.start);
  const pair = isMap(read.contents) ? (read.contents.items[0] as Pair) : new Pair(new Scalar('frames'));
  pair.value = list;
  return pair;
}
