/** From the page of a review. */
export type FromReview =
  /** The page is there, or there again. */
  | { readonly kind: 'ready' }
  /** Show the line of a frame, by its place among those reviewed. */
  | { readonly kind: 'go'; readonly place: number }
  /** Compare once more, with the text as it is now. */
  | { readonly kind: 'again' };

/** To the page of a review: what it shows is of an older text. */
export interface ToReview {
  readonly kind: 'outdated';
}

/** A message from the webview, if it is one: whoever may run there can name a frame by its place, and no file or text. */
export function readFromReview(message: unknown): FromReview | undefined {
  if (typeof message !== 'object' || message === null) return undefined;
  const { kind, place } = message as Readonly<Record<string, unknown>>;
  if (kind === 'ready' || kind === 'again') return { kind };
  const isGo = kind === 'go' && typeof place === 'number' && Number.isSafeInteger(place) && place >= 0;
  return isGo ? { kind, place } : undefined;
}
