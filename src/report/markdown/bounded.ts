/** A comment on a pull request takes 65,536 characters in one system and a megabyte in others (as of 2026, from memory). */
export const MOST_BYTES = 60_000;
/** Room for the line that says how many are left out. */
const TAIL_BYTES = 200;

/**
 * Lines under a head, as many as the bound lets, then what `more` says of those that are left out.
 * @param most bytes of UTF-8
 */
export function boundedLines(
  head: readonly string[],
  lines: readonly string[],
  more: (left: number) => string,
  most = MOST_BYTES,
): string {
  const kept = [...head];
  let bytes = sizeOf(kept.join('\n')) + TAIL_BYTES;
  for (const [place, line] of lines.entries()) {
    bytes += sizeOf(line) + 1;
    if (bytes > most) return [...kept, '', more(lines.length - place), ''].join('\n');
    kept.push(line);
  }
  return [...kept, ''].join('\n');
}

/** Bytes of a text in UTF-8. */
export function sizeOf(text: string): number {
  return new TextEncoder().encode(text).length;
}

/** At most so many characters of a text, with a sign that some are missing. */
export function shortened(text: string, most: number): string {
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
}
