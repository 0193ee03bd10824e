import { keyOf } from './lines.ts';

/** Where a cursor stands in a manifest that may be half written, for completion. */
export interface TextPlace {
  /** Keys from the top, `-` for an item of a list. */
  readonly path: readonly string[];
  /** A key is being written, or a value. */
  readonly writes: 'key' | 'value';
  /** What of it is written already, before the cursor. */
  readonly typed: string;
}

interface Outline {
  /** Columns; a dash or a key may be missing. */
  readonly dash: number | undefined;
  readonly column: number;
  readonly key: string | undefined;
}

/** Reads the lines before the cursor by their indentation, and braces on the cursor's own line. */
export function placeAt(text: string, offset: number): TextPlace {
  const before = text.slice(0, offset).split('\n');
  const line = before.pop()!.replace(/\r$/, '');
  const { dash, column } = outlineOf(line);
  const content = line.slice(column);
  const path = parentsOf(before, dash, column);
  return inBraces(content, path);
}

/** How a line is indented, and the key that it begins with. */
export function outlineOf(line: string): Outline {
  const [, indentation = '', marker = '', spaces = ''] = /^( *)(?:(-)( +|$))?/.exec(line) ?? [];
  const dash = marker === '' ? undefined : indentation.length;
  const column = indentation.length + marker.length + (marker !== '' && spaces === '' ? 1 : spaces.length);
  return { dash, column, key: keyOf(line.slice(column).trim()) };
}

/** The keys and items that a line of these columns lies in, nearest last. */
function parentsOf(lines: readonly string[], dash: number | undefined, column: number): string[] {
  const path: string[] = [];
  // `mayBeLevel`: a list may stand at the column of its own key.
  const edge = { limit: column, mayBeLevel: false };
  const enter = (at: number | undefined): void => {
    if (at === undefined || at >= edge.limit) return;
    path.unshift('-');
    edge.limit = at;
    edge.mayBeLevel = true;
  };
  enter(dash);
  for (let index = lines.length - 1; index >= 0 && (edge.limit > 0 || edge.mayBeLevel); index--) {
    const line = lines[index]!;
    if (/^\s*(#|$)/.test(line)) continue;
    const outline = outlineOf(line);
    const isParent =
      outline.column < edge.limit || (edge.mayBeLevel && outline.column === edge.limit && outline.dash === undefined);
    if (isParent && outline.key !== undefined) {
      path.unshift(outline.key);
      edge.limit = outline.column;
      edge.mayBeLevel = false;
    }
    enter(outline.dash);
  }
  return path;
}

/** Follows `key: { a: 1, b: [` to the cursor. */
function inBraces(content: string, parents: readonly string[]): TextPlace {
  const path = [...parents];
  const open: number[] = [];
  let writes: TextPlace['writes'] = 'key';
  let start = 0;
  let quote = '';
  for (let at = 0; at < content.length; at++) {
    const character = content[at]!;
    if (quote !== '') {
      if (character === quote) quote = '';
    } else if (character === '"' || character === "'") quote = character;
    else if (character === '#' && (at === 0 || content[at - 1] === ' '))
      return { path, writes: 'value', typed: content };
    else if (character === ':' && (content[at + 1] ?? ' ') === ' ') {
      path.push(
        content
          .slice(start, at)
          .trim()
          .replace(/^["']|["']$/g, ''),
      );
      writes = 'value';
      start = at + 1;
    } else if (character === '{' || character === '[') {
      if (character === '[') path.push('-');
      open.push(path.length);
      writes = character === '{' ? 'key' : 'value';
      start = at + 1;
    } else if (character === ',' && open.length > 0) {
      path.length = open.at(-1)!;
      writes = path.at(-1) === '-' ? 'value' : 'key';
      start = at + 1;
    } else if ((character === '}' || character === ']') && open.length > 0) {
      const depth = open.pop()!;
      path.length = character === ']' ? depth - 1 : depth;
      writes = 'value';
      start = at + 1;
    }
  }
  return { path, writes, typed: content.slice(start).trimStart() };
}
