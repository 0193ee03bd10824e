import type { Node, Pair, YAMLMap } from 'yaml';
import { isMap, isScalar, isSeq, Scalar } from 'yaml';
import type { Composed, Fault } from './compose.ts';
import { compose } from './compose.ts';
import { isWarning } from './faults.ts';
import type { Line } from './lines.ts';
import { isItem, keyOf } from './lines.ts';
import type { TextRange } from './manifest.ts';
import { ownPair } from './places.ts';
import { endOf } from './ranges.ts';
import type { Recovery } from './recovery.ts';
import { blockMap } from './recovery.ts';
import { FRAME_KEYS } from './schema-frame.ts';

/** Reads one entry of `frames`, alone; `lines` are its own, beginning with its dash. */
export function recoverFrame(text: string, lines: readonly Line[], frame: number, recovery: Recovery): Node {
  const start = lines[0]!.start;
  const read = compose(text.slice(start, lines.at(-1)!.end), start);
  const fault = read.faults.find((each) => !isWarning(each));
  const item = isSeq(read.contents) && read.contents.items.length === 1 ? read.contents.items[0]! : undefined;
  if (item && !fault) return item;
  const first = fault ?? { code: 'UNREADABLE', message: '', start, end: lines[0]!.end };
  const before = recovery.faults.length;
  const recovered = isMap(item) && item.flow ? photoOnly(item, recovery) : readKeys(text, lines, frame, recovery);
  if (!recovered) {
    recovery.addFault(first, 'This frame cannot be read.', frame);
    return nothing(lines, recovery);
  }
  if (recovery.faults.length === before) recovery.addFault(first, undefined, frame);
  return recovered;
}

/** Of a broken frame in braces only the photo is believed: any other value may have run into the next. */
function photoOnly(map: YAMLMap, recovery: Recovery): Node | undefined {
  const photo = map.items.find((pair) => isScalar(pair.key) && pair.key.value === 'photo');
  if (!photo || map.items.indexOf(photo) === map.items.length - 1) return undefined;
  for (const pair of map.items) {
    if (pair === photo || !isScalar(pair.key)) continue;
    recovery.addBrokenKey(map, String(pair.key.value), rangeAround(pair as Pair<Node>));
  }
  map.items = [photo];
  return map;
}

function rangeAround(pair: Pair<Node>): TextRange {
  const key = pair.key;
  return { start: key.range?.[0] ?? 0, end: pair.value ? endOf(pair.value as Node) : endOf(key) };
}

/** Cuts a frame in block style into its keys and reads each alone. */
function readKeys(text: string, lines: readonly Line[], frame: number, recovery: Recovery): Node | undefined {
  const pieces = keyPieces(withoutDash(lines));
  if (pieces.length === 0) return undefined;
  const first = pieces[0]![0]!;
  const column = first.indent;
  const map = blockMap([], first.start + column, lines.at(-1)!.end, column);
  for (const piece of pieces) {
    const start = piece[0]!.start;
    const range = { start: start + piece[0]!.indent, end: endOfContent(piece) };
    const source = (start === lines[0]!.start ? blankDash(text, lines[0]!) : '') || text.slice(start, piece[0]!.end);
    const read = readPiece(source + text.slice(piece[0]!.end, piece.at(-1)!.end), start);
    const pair = isMap(read.contents) && read.contents.items.length === 1 ? read.contents.items[0] : undefined;
    const fault = read.faults.find((each) => !isWarning(each));
    if (read.tab) recovery.addFault(read.tab, undefined, frame);
    if (pair && !fault) {
      map.items.push(pair);
      continue;
    }
    const key = keyOf(piece[0]!.content);
    const consequence =
      key === undefined ? 'The line is left out.' : `"${key.slice(0, 60)}" of this frame cannot be read.`;
    const found = fault ?? { code: 'NO_KEY', message: 'expected "key: value" here', ...range };
    const shown = text.slice(found.start, found.end).trim() === '' ? { ...found, ...range } : found;
    recovery.addFault(shown, consequence, frame);
    // Of a key that stands twice the first counts.
    if (key !== undefined && !ownPair(map, key)) recovery.addBrokenKey(map, key, range);
  }
  return map;
}

/** Reads a piece; where tabs stand as indentation it is read again with spaces in their place. */
function readPiece(piece: string, offset: number): Composed & { readonly tab?: Fault } {
  const read = compose(piece, offset);
  const tab = read.faults.find((fault) => fault.code === 'TAB_AS_INDENT');
  if (!tab) return read;
  const spaced = piece.replace(/^[ \t]+/gm, (indentation) => ' '.repeat(indentation.length));
  return { ...compose(spaced, offset), tab };
}

/** The lines of a frame as if its dash were a space. */
function withoutDash([first, ...others]: readonly Line[]): Line[] {
  const content = first!.content.slice(1).trimStart();
  const gap = first!.content.length - content.length;
  const bare = content.startsWith('#') || /^[&!]\S*$/.test(content);
  return [{ ...first!, indent: first!.indent + gap, content: bare ? '' : content }, ...others];
}

function blankDash(text: string, { start, end, indent }: Line): string {
  return `${text.slice(start, start + indent)} ${text.slice(start + indent + 1, end)}`;
}

/** The lines of a frame, one group per key. */
function keyPieces(lines: readonly Line[]): Line[][] {
  const from = lines.findIndex((line) => line.content !== '');
  if (from === -1 || keyOf(lines[from]!.content) === undefined) return [];
  const column = lines[from]!.indent;
  const pieces: Line[][] = [];
  for (const line of lines.slice(from)) {
    const piece = pieces.at(-1);
    if (!piece || beginsKey(line, column, piece)) pieces.push([line]);
    else piece.push(line);
  }
  return pieces;
}

/**
 * A key begins at the frame's own column; where the indentation is wrong, with a key that a frame can have. Deeper
 * lines may be the inside of a value, unless the value stands on the key's own line.
 */
function beginsKey(line: Line, column: number, piece: readonly Line[]): boolean {
  if (line.content === '') return false;
  if (line.indent === column && !line.tabbed) return !isItem(line.content) && !/^[}\]]/.test(line.content);
  if (!FRAME_KEYS.includes(keyOf(line.content) ?? '')) return false;
  const inline = /^[^:]*:\s+[^\s|>#&]/.test(piece[0]!.content) && piece.length === 1;
  return line.indent < column || inline;
}

function endOfContent(piece: readonly Line[]): number {
  const last = piece.findLast((line) => line.content !== '') ?? piece[0]!;
  return last.start + last.indent + last.content.length;
}

/** Stands for an entry that cannot be read, so that those after it keep their numbers. */
function nothing(lines: readonly Line[], recovery: Recovery): Node {
  const scalar = new Scalar(null);
  const start = lines[0]!.start + lines[0]!.indent;
  const end = endOfContent(lines);
  scalar.range = [start, end, end];
  recovery.brokenItems.add(scalar);
  return scalar;
}
