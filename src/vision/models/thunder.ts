import { BODY_POINTS } from '../../people/points.ts';
import { gridOfRegion, placeInPhoto, type Region } from '../image/grid.ts';
import type { Pyramid } from '../image/pyramid.ts';
import { byteTensor, outputOf, type ModelSet } from './model-set.ts';
import type { BodyVotes } from './vote.ts';

const SIDE = 256;

/** The single-person model's points for the person in a region that has the body upright. */
export async function placePoints(models: ModelSet, picture: Pyramid, region: Region): Promise<BodyVotes> {
  const grid = gridOfRegion(region, SIDE);
  const outputs = await models.run('movenet-thunder', byteTensor(picture.sample(grid), SIDE, SIDE));
  const numbers = outputOf(outputs, 'Identity');
  return BODY_POINTS.map((_, k) => ({
    ...placeInPhoto(grid, numbers[3 * k + 1]! * SIDE, numbers[3 * k]! * SIDE),
    score: numbers[3 * k + 2]!,
  }));
}
