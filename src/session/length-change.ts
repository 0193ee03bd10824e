import { effectiveEdges } from '../geometry/crop.ts';
import type { Rectangle } from '../geometry/shapes.ts';
import { foundLength } from '../people/length-spans.ts';
import { LENGTH_WORDS, rungOf, type Length } from '../people/lengths.ts';
import { levelledScene } from '../rules/levelling.ts';
import { withCrop, type Scene } from '../rules/scene.ts';

export interface LengthChange {
  readonly before: Length;
  readonly after: Length;
}

/**
 * The lengths that a crop showed and shows, when they differ.
 * @param scene with the crop that it had
 * @param degrees what the picture is turned by now
 */
export function lengthChange(scene: Scene, crop: Rectangle, degrees = scene.degrees): LengthChange | undefined {
  const turned = degrees === scene.degrees ? scene : levelledScene(scene, degrees);
  const now = withCrop(turned, effectiveEdges(crop, scene.photo, degrees));
  if (!scene.tallest || !now.tallest) return undefined;
  const [before, after] = [foundLength(scene.tallest, scene.crop), foundLength(now.tallest, now.crop)];
  return before === after ? undefined : { before, after };
}

/** Whether less of the person is shown than before: a length that the picture paid with. */
export function isCloser({ before, after }: LengthChange): boolean {
  return rungOf(after) > rungOf(before);
}

/** As a photographer says it: "from full length to three-quarter length". */
export function lengthWords({ before, after }: LengthChange): string {
  return `from ${LENGTH_WORDS[before]} to ${LENGTH_WORDS[after]}`;
}
