import { BODY_POINTS } from '../../people/points.ts';
import { placeInPhoto, type Grid } from '../image/grid.ts';
import type { Pyramid } from '../image/pyramid.ts';
import { look } from './look.ts';
import { outputOf, type ModelSet } from './model-set.ts';
import { boxAround } from '../../geometry/points.ts';
import { type BodyVotes, type Box } from './vote.ts';

export interface Candidate {
  readonly score: number;
  readonly box: Box;
  readonly votes: BodyVotes;
}

const MOST_PEOPLE = 6;
/** Per person: 17 points as y, x, score; then top, left, bottom, right, score. */
const NUMBERS_PER_PERSON = 56;
const STEP = 32;
const LEAST_SCORE = 0.15;

/**
 * People that the multi-person model sees in one part of the photo, at most six.
 * @param part in pixels of the decoded photo
 * @param longEdge pixels that the part's longer side gets in the model's input
 */
export async function findPeople(
  models: ModelSet,
  picture: Pyramid,
  part: Box,
  longEdge: number,
): Promise<Candidate[]> {
  const width = part.right - part.left;
  const height = part.bottom - part.top;
  const step = Math.max(width, height) / longEdge;
  const grid: Grid = {
    origin: { x: part.left, y: part.top },
    across: { x: step, y: 0 },
    down: { x: 0, y: step },
    width: Math.ceil(width / step / STEP) * STEP,
    height: Math.ceil(height / step / STEP) * STEP,
  };
  const outputs = await look(models, 'movenet-multipose', picture, grid);
  const numbers = outputOf(outputs, 'Identity');
  const place = (x: number, y: number) => placeInPhoto(grid, x * grid.width, y * grid.height);
  const people: Candidate[] = [];
  for (let index = 0; index < MOST_PEOPLE; index++) {
    const row = numbers.subarray(index * NUMBERS_PER_PERSON, (index + 1) * NUMBERS_PER_PERSON);
    const [top, left, bottom, right, score] = row.subarray(3 * BODY_POINTS.length);
    if (score! < LEAST_SCORE) continue;
    const votes = BODY_POINTS.map((_, k) => ({ ...place(row[3 * k + 1]!, row[3 * k]!), score: row[3 * k + 2]! }));
    people.push({ score: score!, box: boxAround([place(left!, top!), place(right!, bottom!)]), votes });
  }
  return people;
}
