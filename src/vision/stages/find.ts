import type { Pyramid } from '../image/pyramid.ts';
import type { ModelSet } from '../models/model-set.ts';
import { findPeople, type Candidate } from '../models/multipose.ts';
import type { Box } from '../models/vote.ts';
import { withoutDoubles } from './suppress.ts';

/** The model finds people best who are 150 to 300 pixels tall in its input; so it looks at several sizes. */
const WHOLE_EDGES = [256, 384];
const HALF_EDGE = 384;
/** The halves overlap, so that nobody is cut in both. */
const HALF_SHARE = 0.5714;

/** Everybody who may be in the picture, best first. */
export async function findEverybody(models: ModelSet, picture: Pyramid): Promise<Candidate[]> {
  const candidates: Candidate[] = [];
  const whole: Box = { left: 0, top: 0, right: picture.width, bottom: picture.height };
  for (const edge of WHOLE_EDGES) candidates.push(...(await findPeople(models, picture, whole, edge)));
  for (const half of halvesOf(whole)) candidates.push(...(await findPeople(models, picture, half, HALF_EDGE)));
  return withoutDoubles(candidates);
}

function halvesOf({ right, bottom }: Box): [Box, Box] {
  if (right >= bottom) {
    const part = Math.floor(right * HALF_SHARE);
    return [
      { left: 0, top: 0, right: part, bottom },
      { left: right - part, top: 0, right, bottom },
    ];
  }
  const part = Math.floor(bottom * HALF_SHARE);
  return [
    { left: 0, top: 0, right, bottom: part },
    { left: 0, top: bottom - part, right, bottom },
  ];
}
