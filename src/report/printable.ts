/*
 * Characters that a terminal obeys or that turn text around: control characters (C0, DEL, C1), line and paragraph
 * separators, and the bidirectional controls of Unicode Standard Annex #9.
 */
const UNPRINTABLE = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g;

const SHORT: Readonly<Record<string, string>> = { '\n': '\\n', '\r': '\\r', '\t': '\\t' };

/**
 * One line of text that a terminal shows and never obeys: names and values from files may hold anything. What is taken
 * out is shown as an escape (`\u001b`).
 */
export function printable(text: string): string {
  return text.replace(UNPRINTABLE, (character) => SHORT[character] ?? escaped(character));
}

/** The same for text of several lines of our own: its line breaks stay. */
export function printableLines(text: string): string {
  return text.split('\n').map(printable).join('\n');
}

/** JSON text that a terminal never obeys: JSON's own escaping leaves DEL, C1 and the bidirectional controls as they are. */
export function printableJson(json: string): string {
  return json.replace(UNPRINTABLE, (character) => (character === '\n' ? character : escaped(character)));
}

function escaped(character: string): string {
  return `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
}
