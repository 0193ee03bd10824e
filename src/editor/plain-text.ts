import { printable } from '../report/printable.ts';

/*
 * A manifest, a photo's name or a people file may come from a stranger. Whatever they say is shown as text: no control
 * characters, nothing that turns the direction of writing, no markup, and no more than fits a line or two.
 */

const LONGEST = 400;
/** What is left when controls are gone: zero width, unpaired surrogates, private use. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}\p{Co}]/gu;
/** What Markdown gives a meaning, and what links and command links are made of. */
const MARKED = /[\\`*_{}[\]()<>#+\-.!|~&:@"'/$]/g;

/** One line of plain text: what cannot be seen is shown as an escape or `�`, and the end of a very long text as an ellipsis. */
export function plainLine(text: string, longest = LONGEST): string {
  const cut = text.length > longest ? `${text.slice(0, longest)}…` : text;
  return printable(cut).replace(UNSEEN, '\uFFFD');
}

/** The same for a MarkdownString: every character that could mean anything is written as an entity. */
export function markdownText(text: string, longest = LONGEST): string {
  return plainLine(text, longest).replace(MARKED, (mark) => `&#${mark.charCodeAt(0)};`);
}

/** The same for a list to choose from, where `$(name)` would be a picture. */
export function plainLabel(text: string, longest = LONGEST): string {
  return plainLine(text, longest).replaceAll('$(', '\\$(');
}

/** The same for a notification, where `[text](address)` would be a link, and one to a command would run it. */
export function plainMessage(text: string, longest = LONGEST): string {
  return plainLine(text, longest).replaceAll('](', '] (');
}
