import type { TextEdit } from '../manifest/text-edit.ts';

/** The one edit that makes `before` into `after`; undefined when they are the same. */
export function differenceOf(before: string, after: string): TextEdit | undefined {
  if (before === after) return undefined;
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start++;
  let same = 0;
  while (same < shorter - start && before[before.length - 1 - same] === after[after.length - 1 - same]) same++;
  return { start, end: before.length - same, text: after.slice(start, after.length - same) };
}
