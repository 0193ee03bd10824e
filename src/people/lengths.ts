/** How much of a person a picture shows, from full to close (terms of the trade). The order is the ladder. */
export const LENGTHS = ['full-length', 'three-quarter', 'half-length', 'head-and-shoulders', 'close-up'] as const;
export type Length = (typeof LENGTHS)[number];

/** As a photographer says it. */
export const LENGTH_WORDS: Readonly<Record<Length, string>> = {
  'full-length': 'full length',
  'three-quarter': 'three-quarter length',
  'half-length': 'half length',
  'head-and-shoulders': 'head and shoulders',
  'close-up': 'a close-up',
};

export function isLength(text: string): text is Length {
  return (LENGTHS as readonly string[]).includes(text);
}

/** 0 for full-length to 4 for close-up. */
export function rungOf(length: Length): number {
  return LENGTHS.indexOf(length);
}

/** One length tighter, or undefined below the last. */
export function tighterThan(length: Length): Length | undefined {
  return LENGTHS[rungOf(length) + 1];
}

/** One length wider, or undefined above the first. */
export function widerThan(length: Length): Length | undefined {
  return LENGTHS[rungOf(length) - 1];
}
