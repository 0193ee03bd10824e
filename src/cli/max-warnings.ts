import { wholeNumber } from './arguments.ts';

export const MAX_WARNINGS_OPTION = [
  '--max-warnings <count>',
  'as many warnings still pass; errors never do',
  wholeNumber('--max-warnings', 0),
  0,
] as const;

/** Whether a check fails: for any error, or for more warnings than may be. */
export function exceedsWarnings(
  { errors, warnings }: { readonly errors: number; readonly warnings: number },
  most: number,
): boolean {
  return errors > 0 || warnings > most;
}
