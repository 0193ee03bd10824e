import { distance } from '../../geometry/points.ts';
import type { Point } from '../../geometry/shapes.ts';
import { PROPORTIONS } from '../../people/proportions.ts';
import type { BodyPoint } from '../../people/points.ts';

/** The joint that each joint of a leg hangs on, and the length between them in trunks (shoulder to hip). */
const LEG: Readonly<Record<string, { readonly parent: string; readonly trunks: number }>> = {
  hip: { parent: 'shoulder', trunks: 1 },
  knee: { parent: 'hip', trunks: PROPORTIONS.hipToKnee / PROPORTIONS.shoulderToHip },
  ankle: { parent: 'knee', trunks: PROPORTIONS.kneeToAnkle / PROPORTIONS.shoulderToHip },
};
/** A limb of which less than this share of its length is seen tells no direction. */
const TELLS_DIRECTION = 0.25;

/** What a joint's place may be reckoned from. Pixels of the decoded photo. */
export interface Build {
  /** The joint it hangs on; undefined where that was not placed. */
  readonly parent: Point | undefined;
  /** Where the models put the joint in the picture alone: a limb that goes on is snapped to the edge it leaves by. */
  readonly snapped: Point;
  /** From the shoulders to the hips, length 1. */
  readonly down: Point;
  /** Length of the trunk. */
  readonly trunk: number;
}

/** The joint's parent, for joints whose place is reckoned; undefined for arms, which bend too freely, and the head. */
export function parentOf(name: BodyPoint): BodyPoint | undefined {
  const [side, kind] = partsOf(name);
  const parent = LEG[kind]?.parent;
  return parent === undefined ? undefined : (`${side}_${parent}` as BodyPoint);
}

/**
 * Where a joint of a leg lies if the leg goes on as it leaves the picture and is as long as most people's: on cut
 * copies of labelled photos nearer to the truth, for knees and ankles, than either model's guess beyond the edge.
 */
export function expectedPlace(name: BodyPoint, { parent, snapped, down, trunk }: Build): Point | undefined {
  const bone = LEG[partsOf(name)[1]];
  if (bone === undefined || parent === undefined) return undefined;
  const length = bone.trunks * trunk;
  const seen = distance(parent, snapped);
  const way =
    seen > TELLS_DIRECTION * length ? { x: (snapped.x - parent.x) / seen, y: (snapped.y - parent.y) / seen } : down;
  return { x: parent.x + length * way.x, y: parent.y + length * way.y };
}

function partsOf(name: BodyPoint): [side: string, kind: string] {
  const cut = name.indexOf('_');
  return [name.slice(0, cut), name.slice(cut + 1)];
}
