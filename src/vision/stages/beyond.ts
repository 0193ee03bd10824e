import type { Point, Size } from '../../geometry/shapes.ts';
import type { Region } from '../image/grid.ts';
import type { Pyramid } from '../image/pyramid.ts';
import { seeWholeBody } from '../models/blazepose.ts';
import type { ModelSet } from '../models/model-set.ts';
import { placePoints } from '../models/thunder.ts';
import { distance, middleOf } from '../../geometry/points.ts';
import { voteOf, type Box, type BodyVotes } from '../models/vote.ts';
import type { Placed } from './observe.ts';

/**
 * What the models guess of a person whom the photo's edge cuts, from a picture that goes on beyond it: the outermost
 * pixels are drawn out, so that a leg stays a leg for a while, and the region is as large as the whole body would be.
 */
export interface ViewBeyond {
  readonly look: BodyVotes;
  readonly whole: BodyVotes;
  /** How long the trunk is taken to be, in pixels: what tells the size of a body that is not seen whole. */
  readonly trunk: number;
  /** From the shoulders to the hips, length 1. */
  readonly down: Point;
}

/** A body this near to the edge (share of its size) may go on beyond it. */
const NEAR_EDGE = 0.03;

/** Lengths of a standing body by its trunk (shoulder line to hip line); common practice in drawing, no source. */
const BODY = { headAboveShoulders: 0.95, feetBelowHips: 1.9, furthestFromHips: 1.83 };
/** The trunk is at least this much of what is known of the upper body, so that a foreshortened one counts as long enough. */
const TRUNK = { byShoulders: 1.15, byNeck: 1.9 };
const LOOK_SCALE = 1.1;
const WHOLE_SCALE = 1.25;
/** A trunk seen shorter than this share of its length tells no direction. */
const FORESHORTENED = 0.3;

/** Whether the photo's edge cuts, or nearly touches, what is seen of a person. */
export function isAtEdge(box: Box, photo: Size): boolean {
  const margin = NEAR_EDGE * Math.max(box.right - box.left, box.bottom - box.top);
  return (
    box.left < margin || box.top < margin || box.right > photo.width - margin || box.bottom > photo.height - margin
  );
}

export async function lookBeyond(models: ModelSet, picture: Pyramid, person: Placed): Promise<ViewBeyond> {
  const { look, whole, trunk, down } = regionsOfWholeBody(person.votes);
  return {
    look: await placePoints(models, picture, look, 'drawn-out'),
    whole: (await seeWholeBody(models, picture, whole, 'drawn-out')).votes,
    trunk,
    down,
  };
}

function regionsOfWholeBody(votes: BodyVotes): { look: Region; whole: Region; trunk: number; down: Point } {
  const shoulders = middleOf(voteOf(votes, 'left_shoulder'), voteOf(votes, 'right_shoulder'));
  const seenHips = middleOf(voteOf(votes, 'left_hip'), voteOf(votes, 'right_hip'));
  const eyes = middleOf(voteOf(votes, 'left_eye'), voteOf(votes, 'right_eye'));
  const seen = distance(shoulders, seenHips);
  const width = distance(voteOf(votes, 'left_shoulder'), voteOf(votes, 'right_shoulder'));
  const trunk = Math.max(seen, TRUNK.byShoulders * width, TRUNK.byNeck * distance(eyes, shoulders));
  const isSeen = seen > FORESHORTENED * trunk;
  const up = isSeen ? { x: (shoulders.x - seenHips.x) / seen, y: (shoulders.y - seenHips.y) / seen } : { x: 0, y: -1 };
  const along = (trunks: number): Point => ({
    x: shoulders.x + trunks * trunk * up.x,
    y: shoulders.y + trunks * trunk * up.y,
  });
  const crown = along(BODY.headAboveShoulders);
  const soles = along(-1 - BODY.feetBelowHips);
  const angle = Math.atan2(up.x, -up.y);
  return {
    look: { centre: middleOf(crown, soles), side: LOOK_SCALE * distance(crown, soles), angle },
    whole: { centre: along(-1), side: 2 * WHOLE_SCALE * BODY.furthestFromHips * trunk, angle },
    trunk,
    down: { x: -up.x, y: -up.y },
  };
}
