import type { TextRange } from './manifest.ts';

/** Puts `text` in place of what stands between two offsets (UTF-16 code units). */
export interface TextEdit extends TextRange {
  readonly text: string;
}

/** Edits in the order of the text; several insertions at one place keep their order. */
export function sortEdits(edits: readonly TextEdit[]): TextEdit[] {
  return [...edits].sort((one, other) => one.start - other.start || one.end - other.end);
}

/** The text with all edits made. Throws a RangeError when two edits overlap or one lies outside the text. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const parts: string[] = [];
  let done = 0;
  for (const edit of sortEdits(edits)) {
    if (edit.start < done || edit.end < edit.start || edit.end > text.length) {
      throw new RangeError(`The edit of ${edit.start} to ${edit.end} overlaps another, or lies outside the text.`);
    }
    parts.push(text.slice(done, edit.start), edit.text);
    done = edit.end;
  }
  return parts.join('') + text.slice(done);
}

/** The line break in use around `offset`: that of its own line, else the text's first, else `\n`. */
export function lineBreakAt(text: string, offset: number): string {
  const here = text.indexOf('\n', offset);
  const at = here === -1 ? text.indexOf('\n') : here;
  return at > 0 && text[at - 1] === '\r' ? '\r\n' : '\n';
}

/** The end of the line that `offset` stands in, before its line break. */
export function lineEnd(text: string, offset: number): number {
  const at = text.indexOf('\n', offset);
  if (at === -1) return text.length;
  return at > offset && text[at - 1] === '\r' ? at - 1 : at;
}
