import type { Edges, Point } from '../../../src/geometry/shapes.ts';
import { SIDES, type BodyPoint, type Side } from '../../../src/people/points.ts';
import { sizeOfPerson, type LabelledPerson, type LabelledPhoto } from './labels.ts';

/*
 * Finished pictures: the photo ends at the edge, and nobody sees what lay beyond it. Photos are cut at, just inside and
 * just outside a labelled joint, and along the middle of a bone, where no joint is near.
 */

type JointKind = 'elbow' | 'wrist' | 'hip' | 'knee' | 'ankle';
type CutEdge = 'bottom' | 'left' | 'right';

/** Joints at the lower edge, and at the edge to the side that an arm reaches to. */
export const CUT_JOINTS = ['hip', 'knee', 'ankle', 'wrist'] as const;
export const SIDE_JOINTS = ['elbow', 'wrist'] as const;
/** Percent of the person's size; below zero: the joint lies beyond the frame. */
export const CUT_OFFSETS = [-4, 0, 4] as const;

/** The bones whose middles are cut: by the edge they are cut by, their ends, and the joints that would be a false alarm. */
export const CUT_BONES = {
  'mid-thigh': { isSide: false, ends: ['hip', 'knee'], alarms: ['hip', 'knee', 'ankle'] },
  'mid-shin': { isSide: false, ends: ['knee', 'ankle'], alarms: ['hip', 'knee', 'ankle'] },
  'mid-upper-arm': { isSide: true, ends: ['shoulder', 'elbow'], alarms: ['elbow', 'wrist'] },
  'mid-forearm': { isSide: true, ends: ['elbow', 'wrist'], alarms: ['elbow', 'wrist'] },
} as const;
export const BONE_SHARES = [0.4, 0.5, 0.6] as const;
export type BonePlace = keyof typeof CUT_BONES;
export const BONE_PLACES = Object.keys(CUT_BONES) as BonePlace[];

/** A joint this near to the edge (percent of the person's size) is "near" it, as in the notes of the prototype. */
export const NEAR = 6;
/**
 * Where a joint lies just outside that band, a place that is 2 % off reports it, and labels themselves are no better than
 * that: alarms are counted once more where every joint is further away than this.
 */
export const WELL_CLEAR = 8;
/** Edges nearer to the shoulders than this (percent) leave nobody in the picture. */
const FROM_SHOULDERS = 8;
const FROM_SHOULDERS_SIDEWAYS = 3;
/** Who is shown in less of their height than this is already cut. */
const MOSTLY_SHOWN = 0.7;

export interface FinishedCut {
  readonly photo: LabelledPhoto;
  readonly person: LabelledPerson;
  readonly side: Side;
  readonly place: JointKind | BonePlace;
  /** Percent of the person's size at a joint, share of the bone at a bone. */
  readonly offset: number;
  readonly edge: CutEdge;
  /** Where the new edge lies, in pixels of the whole photo: its height, or for a side edge its distance from the left. */
  readonly at: number;
  /** Percent of the person's size from the edge to the nearest joint whose report would be a false alarm (along a bone). */
  readonly clear: number;
}

/** The cuts of everybody shown in most of their height, on both sides of the body. */
export function finishedCuts(photos: readonly LabelledPhoto[]): FinishedCut[] {
  return photos.flatMap((photo) =>
    photo.people
      .filter((person) => person.box[3] >= MOSTLY_SHOWN * sizeOfPerson(person))
      .flatMap((person) => SIDES.flatMap((side) => cutsOf({ photo, person, side }))),
  );
}

export function isBoneCut({ place }: FinishedCut): boolean {
  return place in CUT_BONES;
}

/** The joints that are asked for at a cut. */
export function kindsAt({ place }: FinishedCut): readonly JointKind[] {
  return place in CUT_BONES ? CUT_BONES[place as BonePlace].alarms : [place as JointKind];
}

type Subject = Pick<FinishedCut, 'photo' | 'person' | 'side'>;

function cutsOf(subject: Subject): FinishedCut[] {
  const outer = outerEdge(subject);
  return [
    ...CUT_JOINTS.flatMap((kind) => jointCuts(subject, kind, 'bottom')),
    ...SIDE_JOINTS.flatMap((kind) => jointCuts(subject, kind, outer)),
    ...BONE_PLACES.flatMap((place) => boneCuts(subject, place, CUT_BONES[place].isSide ? outer : 'bottom')),
  ].filter(leavesPerson);
}

/** The side edge that this side's arm is nearer to. */
function outerEdge({ person, side }: Subject): CutEdge {
  const [own, other] = [side, otherSide(side)].map((each) => person.points.get(`${each}_shoulder`)?.x ?? 0);
  return own! < other! ? 'left' : 'right';
}

function otherSide(side: Side): Side {
  return side === 'left' ? 'right' : 'left';
}

function jointCuts(subject: Subject, place: JointKind, edge: CutEdge): FinishedCut[] {
  const joint = subject.person.points.get(`${subject.side}_${place}`);
  if (joint === undefined) return [];
  const outwards = (edge === 'left' ? -1 : 1) * (sizeOfPerson(subject.person) / 100);
  return CUT_OFFSETS.map((offset) => ({
    ...subject,
    place,
    offset,
    edge,
    at: along(edge, joint) + offset * outwards,
    clear: 0,
  }));
}

function boneCuts(subject: Subject, place: BonePlace, edge: CutEdge): FinishedCut[] {
  const { ends, alarms } = CUT_BONES[place];
  const [from, to] = ends.map((kind) => subject.person.points.get(`${subject.side}_${kind}`));
  if (from === undefined || to === undefined) return [];
  const joints = namesOf(alarms).flatMap((name) => subject.person.everywhere.get(name) ?? []);
  return BONE_SHARES.map((share) => {
    const at = along(edge, from) + share * (along(edge, to) - along(edge, from));
    const clear = Math.min(...joints.map((joint) => percentFromEdge({ ...subject, edge, at }, joint)));
    return { ...subject, place, offset: share, edge, at, clear };
  }).filter(({ clear }) => clear > NEAR);
}

/** The edge lies in the photo, and shoulders and face stay in the picture. */
function leavesPerson({ photo, person, edge, at }: FinishedCut): boolean {
  const upper = ['left_shoulder', 'right_shoulder', 'nose'] as const;
  const shoulders = upper.flatMap((name) => person.points.get(name) ?? []).map((point) => along(edge, point));
  if (shoulders.length === 0) return false;
  const share = (edge === 'bottom' ? FROM_SHOULDERS : FROM_SHOULDERS_SIDEWAYS) / 100;
  const margin = share * sizeOfPerson(person);
  if (edge === 'left') return at > 2 && at < Math.min(...shoulders) - margin;
  return at < (edge === 'right' ? photo.size.width : photo.size.height) - 2 && at > Math.max(...shoulders) + margin;
}

/** What is left of the photo, in its pixels. */
export function frameOf({ photo, edge, at }: FinishedCut): Edges {
  return { left: 0, top: 0, right: photo.size.width, bottom: photo.size.height, [edge]: at };
}

export function percentFromEdge(
  { person, edge, at }: Pick<FinishedCut, 'person' | 'edge' | 'at'>,
  point: Point,
): number {
  return (100 * Math.abs(along(edge, point) - at)) / sizeOfPerson(person);
}

function along(edge: CutEdge, { x, y }: Point): number {
  return edge === 'bottom' ? y : x;
}

export function namesOf(kinds: readonly JointKind[]): BodyPoint[] {
  return SIDES.flatMap((side) => kinds.map((kind): BodyPoint => `${side}_${kind}`));
}
