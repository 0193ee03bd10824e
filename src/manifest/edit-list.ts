import type { Node, YAMLSeq } from 'yaml';
import { isAlias, isSeq } from 'yaml';
import type { Frame, Manifest, TextRange } from './manifest.ts';
import { addInBrackets, itemLines } from './item-style.ts';
import { emptyValuePlace, endsInBlockScalar, ownPair } from './places.ts';
import { endOf, startOf } from './ranges.ts';
import type { TextEdit } from './text-edit.ts';
import { lineBreakAt, lineEnd } from './text-edit.ts';
import type { NewFrame } from './write.ts';

/**
 * The edits that add a frame after the one with that index, written as that one is; after the last entry without an index.
 * No edit when the list of frames cannot be read.
 */
export function insertFrameAfter(manifest: Manifest, frameIndex: number | undefined, frame: NewFrame): TextEdit[] {
  const { text, written } = manifest;
  const pair = written && ownPair(written.node, 'frames');
  if (!pair) return written && !written.broken.has('frames') ? [newList(text, frame)] : [];
  const list = pair.value as Node | null;
  if (isAlias(list)) return [];
  if (!isSeq(list)) {
    // `frames:` and nothing.
    const at = emptyValuePlace(pair);
    return at === undefined || (list && startOf(list) !== endOf(list))
      ? []
      : [insertion(lineEnd(text, at), blockItem(text, at, 2, frame))];
  }
  if (list.items.length === 0) {
    const end = endOf(list);
    const start = emptyValuePlace(pair) ?? startOf(list);
    return [{ start, end, text: blockItem(text, start, 2, frame) }];
  }
  const last = itemAt(list, frameIndex ?? list.items.length - 1) ?? (list.items.at(-1) as Node);
  const end = endOf(last);
  if (list.srcToken?.type !== 'block-seq') return addInBrackets(text, last, end, frame);
  const { indent } = list.srcToken;
  if (!endsInBlockScalar(last)) return [insertion(lineEnd(text, end), blockItem(text, end, indent, frame, last))];
  const lineBreak = lineBreakAt(text, Math.max(0, end - 1));
  const item = blockItem(text, Math.max(0, end - 1), indent, frame, last);
  // A block scalar ends after its last line break, or with the text.
  return [insertion(end, text[end - 1] === '\n' ? item.slice(lineBreak.length) + lineBreak : item)];
}

/**
 * The edit that takes a frame out, its lines and all. No edit for a frame whose anchors others use: they would lose
 * what they have.
 */
export function removeFrame(manifest: Manifest, frameIndex: number): TextEdit[] {
  const frame = manifest.frames.find(({ index }) => index === frameIndex);
  const pair = manifest.written && ownPair(manifest.written.node, 'frames');
  const list = pair?.value as Node | null | undefined;
  if (!frame || !isSeq(list)) return [];
  if (manifest.shared.some(({ start, end }) => start >= frame.range.start && end <= frame.range.end)) return [];
  if (list.srcToken?.type !== 'block-seq') return [flowRemoval(list, frameIndex)];
  const { text } = manifest;
  const start = dashLine(text, frame, list.srcToken.indent);
  const node = list.items[frameIndex] as Node;
  const end = endsInBlockScalar(node) ? endOf(node) : afterLine(text, frame.range.end);
  const removal = { start, end, text: '' };
  if (list.items.length > 1) return [removal];
  const at = emptyValuePlace(pair!) ?? start;
  return [insertion(at, ' []'), removal];
}

function blockItem(text: string, at: number, indent: number, frame: NewFrame, beside?: Node): string {
  const lineBreak = lineBreakAt(text, at);
  return itemLines(text, frame, indent, beside)
    .map((line) => lineBreak + line)
    .join('');
}

function newList(text: string, frame: NewFrame): TextEdit {
  const lineBreak = lineBreakAt(text, text.length);
  const before = text === '' || text.endsWith('\n') ? '' : lineBreak;
  return insertion(text.length, `${before}frames:${blockItem(text, text.length, 2, frame)}${lineBreak}`);
}

function itemAt(list: YAMLSeq, index: number): Node | undefined {
  return list.items[index] as Node | undefined;
}

/** The start of the line with the frame's dash: its own, or one above when the frame begins below its dash. */
function dashLine(text: string, frame: Frame, indent: number): number {
  let start = text.lastIndexOf('\n', frame.range.start - 1) + 1;
  while (start > 0 && text[start + indent] !== '-') start = text.lastIndexOf('\n', start - 2) + 1;
  return start;
}

function afterLine(text: string, offset: number): number {
  const lineBreak = text.indexOf('\n', offset);
  return lineBreak === -1 ? text.length : lineBreak + 1;
}

/** In a flow list the comma goes too: the one before, for the first item the one after. */
function flowRemoval(list: YAMLSeq, index: number): TextEdit {
  const items = list.items as Node[];
  const end = endOf(items[index]!);
  const range: TextRange =
    index > 0
      ? { start: endOf(items[index - 1]!), end }
      : { start: startOf(list) + 1, end: items[1] ? startOf(items[1]) : end };
  return { ...range, text: '' };
}

function insertion(at: number, text: string): TextEdit {
  return { start: at, end: at, text };
}
