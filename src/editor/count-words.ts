import type { Counts } from '../session/counts.ts';

/** `1 error, 3 warnings`; `clean` where there is nothing. */
export function countWords({ errors, warnings, infos }: Pick<Counts, 'errors' | 'warnings' | 'infos'>): string {
  const words = [
    [errors, 'error'],
    [warnings, 'warning'],
    [infos, 'hint'],
  ] as const;
  const found = words.filter(([number]) => number > 0).map(([number, noun]) => `${number.toLocaleString('en')} ${noun}${number === 1 ? '' : 's'}`); // prettier-ignore
  return found.length === 0 ? 'clean' : found.join(', ');
}
