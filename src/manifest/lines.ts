/** One line of the manifest's text. */
export interface Line {
  readonly start: number;
  /** After the line break. */
  readonly end: number;
  /** Spaces and tabs in front. */
  readonly indent: number;
  readonly tabbed: boolean;
  /** Without indentation and line break; empty for blank lines and comments. */
  readonly content: string;
}

const BYTE_ORDER_MARK = '\uFEFF';

/** Where the text proper begins: after a byte order mark. */
export function textStart(text: string): number {
  return text.startsWith(BYTE_ORDER_MARK) ? 1 : 0;
}

/** The lines of `text` up to `end`; a byte order mark belongs to none. */
export function splitLines(text: string, end: number): Line[] {
  const lines: Line[] = [];
  for (let start = textStart(text); start < end;) {
    const lineBreak = text.indexOf('\n', start);
    const next = lineBreak === -1 || lineBreak >= end ? end : lineBreak + 1;
    const raw = text.slice(start, next);
    const content = raw.trim();
    const indentation = /^[ \t]*/.exec(raw)![0];
    lines.push({
      start,
      end: next,
      indent: indentation.length,
      tabbed: indentation.includes('\t'),
      content: content.startsWith('#') ? '' : content,
    });
    start = next;
  }
  return lines;
}

/** The key that a line begins with (`crop: …`), its quotes taken off. */
export function keyOf(content: string): string | undefined {
  // Without a lazy part before the spaces: a line of a million spaces would take a million times a million steps.
  const match = /^(?:"([^"]*)"\s*|'([^']*)'\s*|([^\s"'{}[\]&*!|>%@`#,-][^:#]*)):(?=\s|$)/.exec(content);
  return match ? (match[1] ?? match[2] ?? match[3]!.trimEnd()) : undefined;
}

/** Whether a line begins an item of a block list. */
export function isItem(content: string): boolean {
  return /^-(\s|$)/.test(content);
}
