import type { Edges, Rectangle } from '../geometry/shapes.ts';
import { EDGE_NAMES, heightOf } from '../geometry/shapes.ts';
import { tighterThan } from '../people/lengths.ts';
import { foundLength } from '../people/length-spans.ts';
import type { Configuration } from '../rules/configuration.ts';
import { levelDegrees, levelledScene, turnedCrop } from '../rules/levelling.ts';
import { withCrop, type Scene } from '../rules/scene.ts';
import { degreesWords } from '../rules/degrees-words.ts';
import { nearestCrop, type Broken } from './nearest.ts';
import type { SearchOptions } from './options.ts';
import { movedWords, sizeWords, arrivalWords } from './titles.ts';

/** A frame levelled and cropped in one step. */
export interface Levelled {
  readonly straighten: number;
  /** As the manifest writes it, in the turned picture. */
  readonly crop: Rectangle;
  /** The frame as the rules see it then. */
  readonly scene: Scene;
  /** What the crop breaks all the same, with the reasons. */
  readonly broken: readonly Broken[];
  readonly title: string;
}

/**
 * The frame turned level, with the nearest crop that breaks nothing in the turned picture: tighter, so that it looks
 * meant, where the feet no longer fit. It comes down at most one length unless `options.tightest` says otherwise.
 * Undefined when the photo's lean is not known, or no crop holds what must be held.
 */
export function levelFrame(
  scene: Scene,
  configuration: Configuration,
  options: SearchOptions = {},
  degrees = levelDegrees(scene),
): Levelled | undefined {
  if (degrees === undefined) return undefined;
  const start = levelledScene(scene, degrees);
  const present = scene.tallest && foundLength(scene.tallest, scene.crop);
  const usual = scene.askedLength ?? (present && (tighterThan(present) ?? present));
  const answer = nearestCrop(start, configuration, { ...(usual && { tightest: usual }), ...options });
  if (!answer) return undefined;
  return {
    straighten: degrees,
    crop: answer.crop,
    scene: withCrop(start, answer.edges),
    broken: answer.broken,
    title: titleOf(scene, start, answer.edges),
  };
}

/** "Level by −1.5° and come up to three-quarter length, 212 px tighter". */
function titleOf(before: Scene, turned: Scene, edges: Edges): string {
  const straighten = `Level by ${degreesWords(turned.degrees)}`;
  const reference = turnedCrop(before, turned.degrees);
  const arrival = arrivalWords(before, turned, edges);
  const size = sizeWords(reference, edges);
  if (arrival) return `${straighten} and ${arrival}, ${size}`;
  const isSmaller = heightOf(edges) < heightOf(reference) - 1;
  if (isSmaller) return `${straighten} and crop, ${size}`;
  const isMoved = EDGE_NAMES.some((edge) => Math.abs(edges[edge] - reference[edge]) >= 1);
  return isMoved ? `${straighten}: ${movedWords(reference, edges)}` : `${straighten}; the crop keeps its size`;
}
