import { gridOfRegion, placeInPhoto, type Grid, type Region } from '../image/grid.ts';
import type { Pyramid } from '../image/pyramid.ts';
import type { Beyond } from '../image/walk.ts';
import { look } from './look.ts';
import { outputOf, sigmoid, type ModelSet } from './model-set.ts';
import type { BodyVotes, Vote } from './vote.ts';

const SIDE = 256;
/** x, y, z, visibility, presence. */
const NUMBERS_PER_POINT = 5;

/** The model's points that are COCO's 17, in COCO's order. */
const COCO_POINTS = [0, 2, 5, 7, 8, 11, 12, 13, 14, 15, 16, 23, 24, 25, 26, 27, 28];

/** Points that only this model has, by their number in the model. */
export const EXTRA = {
  left: { pinkyKnuckle: 17, indexKnuckle: 19, thumb: 21, heel: 29, toe: 31 },
  right: { pinkyKnuckle: 18, indexKnuckle: 20, thumb: 22, heel: 30, toe: 32 },
} as const;

/** How much of each pixel of a turned square belongs to the person, 0 to 1. */
export interface PersonMask {
  readonly grid: Grid;
  readonly coverage: Float32Array;
}

export interface WholeBody {
  readonly votes: BodyVotes;
  /** All 33 body points of the model; score = the lesser of visibility and presence. */
  readonly points: readonly Vote[];
  readonly mask: PersonMask;
  /** The model's own flag that a person is there, 0 to 1. */
  readonly presence: number;
}

/** The body model's points and mask for the person in a region centred on the hips, body upright. */
export async function seeWholeBody(
  models: ModelSet,
  picture: Pyramid,
  region: Region,
  beyond: Beyond = 'black',
): Promise<WholeBody> {
  const grid = gridOfRegion(region, SIDE);
  const outputs = await look(models, 'blazepose-heavy', picture, grid, beyond);
  const numbers = outputOf(outputs, 'Identity_2');
  const points = Array.from({ length: 33 }, (_, k): Vote => {
    const [x, y, , visibility, presence] = numbers.subarray(k * NUMBERS_PER_POINT, (k + 1) * NUMBERS_PER_POINT);
    return { ...placeInPhoto(grid, x!, y!), score: Math.min(sigmoid(visibility!), sigmoid(presence!)) };
  });
  return {
    votes: COCO_POINTS.map((k) => points[k]!),
    points,
    mask: { grid, coverage: outputOf(outputs, 'Identity_1') },
    presence: outputOf(outputs, 'Identity_3')[0]!,
  };
}
