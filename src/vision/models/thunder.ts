import { BODY_POINTS } from '../../people/points.ts';
import { gridOfRegion, mirrored, placeInPhoto, type Grid, type Region } from '../image/grid.ts';
import type { Pyramid } from '../image/pyramid.ts';
import type { Beyond } from '../image/walk.ts';
import { look } from './look.ts';
import { outputOf, type ModelSet } from './model-set.ts';
import type { BodyVotes } from './vote.ts';

const SIDE = 256;

/** For each point the one on the body's other side; the nose is its own. */
const OTHER_SIDE = BODY_POINTS.map((name) => BODY_POINTS.findIndex((other) => other === otherSideOf(name)));

function otherSideOf(name: string): string {
  return name.startsWith('left_') ? name.replace('left_', 'right_') : name.replace('right_', 'left_');
}

/** The single-person model's points for the person in a region that has the body upright. */
export function placePoints(
  models: ModelSet,
  picture: Pyramid,
  region: Region,
  beyond: Beyond = 'black',
): Promise<BodyVotes> {
  return placeOnGrid(models, picture, gridOfRegion(region, SIDE), beyond);
}

/** The same from the mirrored picture: a second, nearly independent look. */
export async function placePointsMirrored(models: ModelSet, picture: Pyramid, region: Region): Promise<BodyVotes> {
  const votes = await placeOnGrid(models, picture, mirrored(gridOfRegion(region, SIDE)), 'black');
  return OTHER_SIDE.map((index) => votes[index]!);
}

async function placeOnGrid(models: ModelSet, picture: Pyramid, grid: Grid, beyond: Beyond): Promise<BodyVotes> {
  const outputs = await look(models, 'movenet-thunder', picture, grid, beyond);
  const numbers = outputOf(outputs, 'Identity');
  return BODY_POINTS.map((_, k) => ({
    ...placeInPhoto(grid, numbers[3 * k + 1]! * SIDE, numbers[3 * k]! * SIDE),
    score: numbers[3 * k + 2]!,
  }));
}
