import { keyOf } from './lines.ts';
import { outlineOf } from './text-place.ts';

/**
 * The keys that the map at a cursor has already, in a manifest that may be half written: read from the lines around it by
 * their indentation, or from the braces on the cursor's own line. The line that is being written has no say.
 */
export function keysBeside(text: string, offset: number): ReadonlySet<string> {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  const next = text.indexOf('\n', offset);
  const end = next === -1 ? text.length : next;
  const inBraces = keysInBraces(text.slice(start, end), offset - start);
  if (inBraces) return inBraces;
  const { dash, column } = outlineOf(text.slice(start, offset));
  const keys = new Set<string>();
  // A dash on the cursor's own line begins the map.
  if (dash === undefined) addKeys(keys, linesBefore(text, start), column, true);
  addKeys(keys, linesFrom(text, end + 1), column, false);
  return keys;
}

/** Adds the keys of one column until the map ends; the line of its dash still belongs to it or does not any more. */
function addKeys(keys: Set<string>, lines: Iterable<string>, column: number, isDashIn: boolean): void {
  for (const line of lines) {
    if (/^\s*(#|$)/.test(line)) continue;
    const outline = outlineOf(line);
    const isItem = outline.dash !== undefined && outline.dash < column;
    if (outline.column < column || (isItem && !isDashIn)) return;
    if (outline.column === column && outline.key !== undefined) keys.add(outline.key);
    if (isItem) return;
  }
}

function* linesBefore(text: string, start: number): Iterable<string> {
  for (let end = start - 1; end >= 0;) {
    const begin = end === 0 ? 0 : text.lastIndexOf('\n', end - 1) + 1;
    yield text.slice(begin, end);
    end = begin - 1;
  }
}

function* linesFrom(text: string, start: number): Iterable<string> {
  for (let begin = start; begin < text.length;) {
    const end = text.indexOf('\n', begin);
    yield text.slice(begin, end === -1 ? text.length : end);
    begin = end === -1 ? text.length : end + 1;
  }
}

/** The keys of the braces that the cursor is in, as far as they stand on its line; undefined when it is in none. */
function keysInBraces(line: string, cursor: number): ReadonlySet<string> | undefined {
  let begin = openingBrace(line, cursor) + 1;
  if (begin === 0) return undefined;
  const keys = new Set<string>();
  let depth = 0;
  for (let at = begin; at <= line.length && depth >= 0; at++) {
    if (line[at] === '{') depth++;
    else if (line[at] === '}') depth--;
    const isEnd = at === line.length || depth < 0 || (depth === 0 && line[at] === ',');
    if (!isEnd) continue;
    const key = keyOf(line.slice(begin, at).trim());
    if (key !== undefined && (cursor < begin || cursor > at)) keys.add(key);
    begin = at + 1;
  }
  return keys;
}

/** Where the braces around a place begin; −1 when there are none. */
function openingBrace(line: string, place: number): number {
  let depth = 0;
  for (let at = place - 1; at >= 0; at--) {
    if (line[at] === '}') depth++;
    else if (line[at] === '{' && depth-- === 0) return at;
  }
  return -1;
}
