import { gridOfRegion, placeInPhoto, type Region } from '../image/grid.ts';
import type { Pyramid } from '../image/pyramid.ts';
import type { Point } from '../../geometry/shapes.ts';
import { look } from './look.ts';
import { outputOf, type ModelSet } from './model-set.ts';

const SIDE = 224;
const POINTS = 21;

export interface HandVotes {
  /** Root, then thumb to little finger, each from its root to its tip: COCO-WholeBody's order. */
  readonly points: readonly Point[];
  /** The model's own flag that a hand is there, 0 to 1. */
  readonly presence: number;
}

/** The hand model's points for the hand in a region that has the fingers up. */
export async function seeHand(models: ModelSet, picture: Pyramid, region: Region): Promise<HandVotes> {
  const grid = gridOfRegion(region, SIDE);
  const outputs = await look(models, 'handlandmark-full', picture, grid);
  const numbers = outputOf(outputs, 'Identity');
  return {
    points: Array.from({ length: POINTS }, (_, k) => placeInPhoto(grid, numbers[3 * k]!, numbers[3 * k + 1]!)),
    presence: outputOf(outputs, 'Identity_1')[0]!,
  };
}
