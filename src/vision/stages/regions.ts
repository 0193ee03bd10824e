import type { Region } from '../image/grid.ts';
import { boxAround, distance, middleOf } from '../../geometry/points.ts';
import { joinBoxes, sizeOf, voteOf, type BodyVotes, type Box } from '../models/vote.ts';

const SURE_ENOUGH = 0.2;

/** The direction from the hips to the shoulders as a turn from upright, in radians. */
export function bodyAngle(votes: BodyVotes): number {
  const shoulders = middleOf(voteOf(votes, 'left_shoulder'), voteOf(votes, 'right_shoulder'));
  const hips = middleOf(voteOf(votes, 'left_hip'), voteOf(votes, 'right_hip'));
  return Math.atan2(shoulders.x - hips.x, hips.y - shoulders.y);
}

/** Around the box and all sure points, turned with the body where shoulders and hips are known. */
export function regionAroundPerson(box: Box, votes: BodyVotes, scale: number): Region {
  const sure = surePoints(votes);
  return regionAround(sure === undefined ? box : joinBoxes(box, sure), votes, scale);
}

/** Around the sure points alone; undefined where there are too few. */
export function regionAroundPoints(votes: BodyVotes, scale: number): Region | undefined {
  const sure = surePoints(votes);
  return sure && regionAround(sure, votes, scale);
}

function surePoints(votes: BodyVotes): Box | undefined {
  const sure = votes.filter((vote) => vote.score >= SURE_ENOUGH);
  return sure.length < 3 ? undefined : boxAround(sure);
}

function regionAround(box: Box, votes: BodyVotes, scale: number): Region {
  const trunk = (['left_shoulder', 'right_shoulder', 'left_hip', 'right_hip'] as const).map((name) =>
    voteOf(votes, name),
  );
  const known = trunk.every((vote) => vote.score > SURE_ENOUGH);
  return {
    centre: { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 },
    side: sizeOf(box) * scale,
    angle: known ? bodyAngle(votes) : 0,
  };
}

/**
 * What the whole-body model was trained on: centred on the hips, wide enough for the furthest sure point. Faces and
 * ankles count for a little more, because head and feet go on beyond them.
 */
export function regionAroundHips(votes: BodyVotes, scale: number): Region {
  const centre = middleOf(voteOf(votes, 'left_hip'), voteOf(votes, 'right_hip'));
  let radius = 0;
  votes.forEach((vote, index) => {
    if (vote.score < SURE_ENOUGH) return;
    const stretch = index < 5 ? 1.12 : index >= 15 ? 1.08 : 1;
    radius = Math.max(radius, distance(vote, centre) * stretch);
  });
  return { centre, side: 2 * radius * scale, angle: bodyAngle(votes) };
}
