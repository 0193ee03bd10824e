import type { Configuration } from '../rules/configuration.ts';
import { isHorizonSeen, levelDegrees } from '../rules/levelling.ts';
import type { Scene } from '../rules/scene.ts';
import { levelFrame, type Levelled } from './levelling.ts';
import { nearestCrop } from './nearest.ts';
import type { SearchOptions } from './options.ts';

const STEP = 0.1;
/** A lean that nobody sees, with a horizon in the picture and without, in degrees (common practice, no source). */
const UNSEEN = { withHorizon: 0.5, without: 1 } as const;

/**
 * The straightening nearest to the present one with which some crop breaks nothing, as long as the lean that it leaves
 * is one that nobody sees. Undefined when the present straightening has such a crop, or none within reach has.
 */
export function straightenLess(
  scene: Scene,
  configuration: Configuration,
  options: SearchOptions = {},
): Levelled | undefined {
  if (nearestCrop(scene, configuration, options)?.broken.length === 0) return undefined;
  const most = isHorizonSeen(scene) ? UNSEEN.withHorizon : UNSEEN.without;
  const level = levelDegrees(scene) ?? scene.degrees;
  for (let back = STEP; back <= Math.abs(scene.degrees) + STEP / 2; back += STEP) {
    const less = Math.sign(scene.degrees) * Math.max(0, Math.abs(scene.degrees) - back);
    const degrees = Math.round(less * 100) / 100;
    if (Math.abs(level - degrees) > most + 1e-9) continue;
    const found = levelFrame(scene, configuration, options, degrees);
    if (found?.broken.length === 0) return found;
  }
  return undefined;
}
