import { extname } from 'node:path';

/**
 * The file that a missing photo probably is by now: the same name in another folder, in other letters' case or with
 * another extension, or one letter off. Undefined when there is none, or when it could be several.
 * @param candidates pictures that no frame uses, with `/` between folders
 */
export function likelyFile(missing: string, candidates: readonly string[]): string | undefined {
  const likeness: ((candidate: string) => boolean)[] = [
    (candidate) => candidate.toLowerCase() === missing.toLowerCase(),
    (candidate) => stemOf(candidate).toLowerCase() === stemOf(missing).toLowerCase(),
    (candidate) => baseOf(candidate).toLowerCase() === baseOf(missing).toLowerCase(),
    (candidate) => isOneSlip(missing.toLowerCase(), candidate.toLowerCase()),
  ];
  for (const isAlike of likeness) {
    const alike = candidates.filter(isAlike);
    if (alike.length > 0) return alike.length === 1 ? alike[0] : undefined;
  }
  return undefined;
}

/**
 * One letter too many, missing, wrong, or two neighbours swapped. Another digit in the place of a digit is no slip: 0142
 * and 0143 are two photos.
 */
function isOneSlip(one: string, other: string): boolean {
  const [short, long] = one.length <= other.length ? [one, other] : [other, one];
  if (long.length - short.length > 1) return false;
  let start = 0;
  while (start < short.length && short[start] === long[start]) start += 1;
  if (short.length < long.length) return short.slice(start) === long.slice(start + 1);
  const isNumber = /\d/.test(short[start] ?? '') && /\d/.test(long[start] ?? '');
  if (isNumber) return false;
  const isSwap = short[start] === long[start + 1] && short[start + 1] === long[start];
  return (
    short.slice(start + 1) === long.slice(start + 1) || (isSwap && short.slice(start + 2) === long.slice(start + 2))
  );
}

function stemOf(name: string): string {
  return name.slice(0, name.length - extname(name).length);
}

function baseOf(name: string): string {
  return name.slice(name.lastIndexOf('/') + 1);
}
