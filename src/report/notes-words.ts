import type { PhotoNotes } from '../session/notes/notes.ts';
import { printable } from './printable.ts';

/** One part of the notes. */
export interface Section {
  readonly title: string;
  /** Photos that can tell; 0 when none. */
  readonly counted: number;
  readonly found: string;
  readonly next?: string;
}

const MOST_NAMES = 12;
const LONGEST = 200;

/** Text from a file as a code span: nothing in it is markup, whatever it holds. */
export function codeSpan(text: string): string {
  const line = printable(text).slice(0, LONGEST);
  const longestRun = Math.max(0, ...[...line.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longestRun + 1);
  const isTouching = line.startsWith('`') || line.endsWith('`');
  return isTouching || line.trim() === '' ? `${fence} ${line} ${fence}` : fence + line + fence;
}

/** Names as a Markdown list, each with what `told` says of it. */
export function list(notes: readonly PhotoNotes[], told?: (note: PhotoNotes) => string): string {
  const lines = notes.slice(0, MOST_NAMES).map((note) => `- ${codeSpan(note.photo)}${told ? `: ${told(note)}` : ''}`);
  const others = notes.length - lines.length;
  return [...lines, ...(others > 0 ? [`- and ${others} more`] : [])].join('\n');
}

export function plural(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}
