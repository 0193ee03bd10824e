import type { Node } from 'yaml';
import { isMap, isSeq } from 'yaml';
import { AliasWalk } from './aliases.ts';
import { Anchors } from './anchors.ts';
import { buildFrame, type KnownIds } from './build-frame.ts';
import { compose } from './compose.ts';
import type { Frame, Problem } from './manifest.ts';
import type { ReadMap } from './read-value.ts';
import { entry } from './read-value.ts';
import { Reader } from './read.ts';
import { Recovery } from './recovery.ts';
import { FRAMES } from './schema.ts';
import { lineEnd } from './text-edit.ts';

/** One entry of `frames` as it stands now. */
export interface RereadFrame {
  readonly frame: Frame;
  readonly problems: readonly Problem[];
  readonly node: Node;
}

/**
 * The node of one entry, read alone by yaml at its own place in the text.
 * @param line where the line of its dash begins
 * @param end where the entry ends
 */
export function readEntryNode(text: string, line: number, end: number): Node | undefined {
  const last = text[end - 1] === '\n' ? end : lineEnd(text, end);
  // Cut and joined again, the piece is text of its own: a mere slice would keep every former text alive.
  const piece = text.slice(line, last).split('\n').join('\n');
  const read = compose(piece, line);
  if (read.faults.length > 0 || read.secondDocument !== undefined) return undefined;
  return isSeq(read.contents) && read.contents.items.length === 1 ? read.contents.items[0] : undefined;
}

/**
 * Reads one entry that stands on its own (no anchor, alias or tag) anew.
 * @param before the frame as it was; its place in the list and among the frames of its photo stay
 * @returns undefined when the entry is not the same photo's any more, or no entry: then the whole must be read
 */
export function rereadFrame(
  text: string,
  line: number,
  end: number,
  before: Frame,
  known: KnownIds,
): RereadFrame | undefined {
  const node = readEntryNode(text, line, end);
  if (!isMap(node)) return undefined;
  const reader = new Reader(new AliasWalk(new Anchors(null, '')), new Recovery());
  const item = reader.readItem(node, before.index, FRAMES, { key: 'frames' });
  const photo = item && entry<string>(item.value as ReadMap, 'photo');
  if (photo?.value !== before.photo.value) return undefined;
  const frame = buildFrame(item!, photo, before.occurrence, known, reader);
  const problems = reader.problems.sort((one, other) => one.range.start - other.range.start);
  return { frame, problems, node };
}
