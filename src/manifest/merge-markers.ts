import type { Fault } from './compose.ts';

/** The lines that version control leaves where two versions were not merged (git, merge.conflictStyle). */
const MARKER = /^(?:<{7}|={7}|>{7}|\|{7})(?= |\r?$).*$/gm;

/** The text without the lines that an unfinished merge left: comments of the same length stand in their place. */
export function withoutMergeMarkers(text: string): { readonly text: string; readonly faults: readonly Fault[] } {
  const faults: Fault[] = [];
  const clean = text.replace(MARKER, (line, start: number) => {
    faults.push({ code: 'MERGE', message: '', start, end: start + 7 });
    return `#${line.slice(1)}`;
  });
  return { text: clean, faults };
}
