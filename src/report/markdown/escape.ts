import { printable } from '../printable.ts';

/**
 * One line of text that Markdown shows and never obeys (CommonMark 0.31.2, 2.4: any ASCII punctuation may be escaped):
 * names and values from files may hold markup, table bars, links, or the names of people who would be called by it.
 */
export function escapeMarkdown(text: string): string {
  return (
    printable(text)
      .replace(/[\\`*_{}[\]()#+!|~$^=-]/g, String.raw`\$&`)
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      // Mentions, numbers of issues and bare links are found in the text as it is shown; an empty comment parts them.
      .replace(/@|\\#|:(?=\/\/)|\bwww(?=\.)|\bGH(?=\\-)/gi, '$&<!-- -->')
  );
}

/** A file's name as code: nothing in it is markup, a mention or a link. Fit for a table's cell. */
export function codeSpan(text: string): string {
  const shown = printable(text).replaceAll('|', String.raw`\|`);
  const longest = Math.max(0, ...[...shown.matchAll(/`+/g)].map(([run]) => run.length));
  if (longest === 0) return `\`${shown}\``;
  // A run of backticks that is longer than any inside begins and ends it (CommonMark 6.1).
  const fence = '`'.repeat(longest + 1);
  return `${fence} ${shown} ${fence}`;
}
