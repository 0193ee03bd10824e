import { lengthSpans } from '../people/length-spans.ts';
import type { Length } from '../people/lengths.ts';
import type { Configuration } from '../rules/configuration.ts';
import type { Scene } from '../rules/scene.ts';
import type { SearchAnswer } from './nearest.ts';
import { NearestSearch } from './nearest.ts';
import type { SearchOptions } from './options.ts';

/** One rung of the ladder: the best crop of one length. */
export interface Rung {
  readonly length: Length;
  readonly answer: SearchAnswer;
}

/**
 * The nearest crop of every length that fits the body and the photo, from full-length to close-up. A length that the
 * frame asks for does not weigh here.
 */
export function ladder(scene: Scene, configuration: Configuration, options: SearchOptions = {}): Rung[] {
  if (!scene.tallest) return [];
  const photoEnd = scene.photo.height;
  const fitting = lengthSpans(scene.tallest).filter(({ from, to }) => from < to && from < photoEnd && to > 0);
  const search = new NearestSearch({ ...scene, askedLength: undefined }, configuration);
  return fitting.flatMap(({ length }) => {
    const answer = search.answer({ ...options, tightest: length, widest: length });
    return answer ? [{ length, answer }] : [];
  });
}
