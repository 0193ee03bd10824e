import { printable } from '../printable.ts';

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text for an HTML page, in an element or in a quoted attribute: shown, never obeyed. */
export function text(plain: string): string {
  return printable(plain).replace(/[&<>"']/g, (sign) => ENTITIES[sign]!);
}
