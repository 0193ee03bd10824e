import type { BodyPoint, Side } from './points.ts';
import { SIDES } from './points.ts';

export type SegmentKind = 'torso' | 'thigh' | 'shin' | 'upper-arm' | 'forearm';

/** A part of the body between two joints; t runs along it from `from` (0) to `to` (1). */
export interface Segment {
  readonly kind: SegmentKind;
  readonly side: Side;
  readonly from: BodyPoint;
  readonly to: BodyPoint;
}

export const SEGMENTS: readonly Segment[] = SIDES.flatMap((side): Segment[] => [
  { kind: 'torso', side, from: `${side}_shoulder`, to: `${side}_hip` },
  { kind: 'thigh', side, from: `${side}_hip`, to: `${side}_knee` },
  { kind: 'shin', side, from: `${side}_knee`, to: `${side}_ankle` },
  { kind: 'upper-arm', side, from: `${side}_shoulder`, to: `${side}_elbow` },
  { kind: 'forearm', side, from: `${side}_elbow`, to: `${side}_wrist` },
]);

/** The joints that no edge may come near, with the limb segments that end in them (a torso is no limb). */
export const JOINTS: readonly { readonly joint: BodyPoint; readonly limbs: readonly Segment[] }[] = SIDES.flatMap(
  (side) =>
    (['hip', 'knee', 'ankle', 'elbow', 'wrist'] as const).map((kind) => {
      const joint: BodyPoint = `${side}_${kind}`;
      return {
        joint,
        limbs: SEGMENTS.filter(
          (segment) => segment.kind !== 'torso' && (segment.from === joint || segment.to === joint),
        ),
      };
    }),
);
