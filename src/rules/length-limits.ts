import type { HalfSpace } from '../geometry/half-space.ts';
import { atLeast, atMost } from '../geometry/half-space.ts';
import { lengthSpans } from '../people/length-spans.ts';
import type { Length } from '../people/lengths.ts';
import type { Scene } from './scene.ts';

/** Lengths overlap by this many pixels, so that no edge can hide between two of them. */
const OVERLAP = 0.5;

/**
 * The lengths whose limits hold in a scene, each with the conditions under which it is not the crop's length. A length
 * that the frame asks for is a rule of its own: what is there is judged as what it is.
 */
export function lengthsThatMayHold(scene: Scene): { length: Length; otherwise: HalfSpace[] }[] {
  if (!scene.tallest) return [{ length: 'full-length', otherwise: [] }];
  const { bottom } = scene.crop;
  return lengthSpans(scene.tallest)
    .filter(({ from, to }) => to > from && (!scene.isFixed || (bottom > from - OVERLAP && bottom < to + OVERLAP)))
    .map(({ length, from, to }) => ({
      length,
      otherwise: [
        ...(Number.isFinite(from) ? [atMost('bottom', from - OVERLAP)] : []),
        ...(Number.isFinite(to) ? [atLeast('bottom', to + OVERLAP)] : []),
      ],
    }));
}
