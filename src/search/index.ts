import type { Configuration } from '../rules/configuration.ts';
import type { Scene } from '../rules/scene.ts';
import type { SearchOptions } from './options.ts';
import { problemOf } from './problem.ts';
import { whyNoCrop } from './reasons.ts';

export type { SearchOptions } from './options.ts';
export type { Broken, SearchAnswer } from './nearest.ts';
export { nearestCrop, NearestSearch } from './nearest.ts';
export type { Rung } from './ladder.ts';
export { ladder } from './ladder.ts';
export type { Carried } from './carry.ts';
export { carryCrop } from './carry.ts';
export type { Levelled } from './levelling.ts';
export { levelFrame } from './levelling.ts';
export { straightenLess } from './straighten-less.ts';
export type { Fix } from './fixes.ts';
export { fixesFor } from './fixes.ts';

/** Why `nearestCrop` has no answer, in plain words; undefined when it has one. */
export function reasonWithoutCrop(
  scene: Scene,
  configuration: Configuration,
  options: SearchOptions = {},
): string | undefined {
  return whyNoCrop(problemOf(scene, configuration, options, 0));
}
