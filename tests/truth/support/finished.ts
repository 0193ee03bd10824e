import { POSSIBLE } from '../../../src/people/confidence.ts';
import { SIDES, type BodyPoint, type Side } from '../../../src/people/points.ts';
import { decodePhoto } from '../../../src/photos/decode.ts';
import { LONG_EDGE, measurePixels } from '../../../src/vision/measure.ts';
import type { ModelSet } from '../../../src/vision/models/model-set.ts';
import { sizeOfPerson, type LabelledPerson, type LabelledPhoto } from './labels.ts';
import { matchPeople } from './match.ts';
import { pixelPoints } from './measured.ts';

/*
 * Finished pictures: the photo ends at the edge, and nobody sees what lay beyond it. Photos are cut at, just above and
 * just below a labelled joint, and at the middle of a bone; then only the cut picture is measured.
 */

export const CUT_JOINTS = ['hip', 'knee', 'ankle', 'wrist'] as const;
/** Percent of the person's size; below zero: above the joint, which then lies beyond the frame. */
export const CUT_OFFSETS = [-4, 0, 4] as const;
const MIDDLES = { 'mid-thigh': ['hip', 'knee'], 'mid-shin': ['knee', 'ankle'] } as const;
const LEG_JOINTS = ['hip', 'knee', 'ankle'] as const;

/** A measured joint this near to the edge (percent of the person's size) is "near" it, as in the notes of the prototype. */
const NEAR = 6;

type JointName = (typeof CUT_JOINTS)[number];
type CutPlace = JointName | keyof typeof MIDDLES;

export interface FinishedCut {
  readonly photo: LabelledPhoto;
  readonly person: LabelledPerson;
  readonly place: CutPlace;
  readonly offset: number;
  /** Height of the new lower edge in pixels of the whole photo. */
  readonly edge: number;
}

export interface CutAnswer extends FinishedCut {
  /** A joint of the cut's kind (at the middle of a bone: any of the leg) was measured near the edge. */
  readonly isReported: boolean;
}

/** The cuts of everybody shown in most of their height: at each joint of one side, and at the middles of the bones. */
export function finishedCuts(photos: readonly LabelledPhoto[]): FinishedCut[] {
  return photos.flatMap((photo) =>
    photo.people.flatMap((person, index) => {
      const side = SIDES[index % 2]!;
      const size = sizeOfPerson(person);
      const shoulder = person.points.get(`${side}_shoulder`);
      if (shoulder === undefined || person.box[3] < 0.7 * size) return [];
      return [...jointCuts(person, side, size), ...middleCuts(person, side, size)]
        .filter(({ edge }) => edge > shoulder.y + 0.08 * size && edge < photo.size.height - 2)
        .map((cut) => ({ photo, person, ...cut }));
    }),
  );
}

function jointCuts(person: LabelledPerson, side: Side, size: number) {
  return CUT_JOINTS.flatMap((place) => {
    const joint = person.points.get(`${side}_${place}`);
    if (joint === undefined) return [];
    return CUT_OFFSETS.map((offset) => ({ place, offset, edge: joint.y + (offset / 100) * size }));
  });
}

function middleCuts(person: LabelledPerson, side: Side, size: number) {
  return (['mid-thigh', 'mid-shin'] as const).flatMap((place) => {
    const [from, to] = MIDDLES[place].map((kind) => person.points.get(`${side}_${kind}`));
    if (from === undefined || to === undefined) return [];
    const edge = (from.y + to.y) / 2;
    const joints = namesOf(LEG_JOINTS).flatMap((name) => person.everywhere.get(name) ?? []);
    const isClear = joints.every((joint) => Math.abs(joint.y - edge) > (NEAR / 100) * size);
    return isClear ? [{ place, offset: 0, edge }] : [];
  });
}

/** Measures each cut picture. People who are not found in it report nothing. */
export async function answerCuts(models: ModelSet, cuts: readonly FinishedCut[]): Promise<CutAnswer[]> {
  const answers: CutAnswer[] = [];
  for (const cut of cuts) {
    const { pixels } = await decodePhoto(cut.photo.path, LONG_EDGE);
    const scale = pixels.width / cut.photo.size.width;
    const height = Math.round(cut.edge * scale);
    const people = await measurePixels(
      { ...pixels, height, data: pixels.data.subarray(0, 3 * height * pixels.width) },
      models,
    );
    const size = { width: cut.photo.size.width, height: height / scale };
    const visible = new Map([...cut.person.points].filter(([, { y }]) => y < cut.edge));
    const shown = { ...cut.person, points: visible };
    const [match] = matchPeople([shown], people, (person) => pixelPoints(person, { ...cut.photo, size }));
    const points = match?.found === undefined ? undefined : pixelPoints(match.found, { ...cut.photo, size });
    const isReported = namesOf(kindsOf(cut.place)).some((name) => {
      const point = points?.get(name);
      if (point === undefined || point.confidence < POSSIBLE) return false;
      return Math.abs(point.y - cut.edge) <= (NEAR / 100) * sizeOfPerson(cut.person);
    });
    answers.push({ ...cut, isReported });
  }
  return answers;
}

function kindsOf(place: CutPlace): readonly JointName[] {
  return place === 'mid-thigh' || place === 'mid-shin' ? LEG_JOINTS : [place];
}

function namesOf(kinds: readonly JointName[]): BodyPoint[] {
  return SIDES.flatMap((side) => kinds.map((kind): BodyPoint => `${side}_${kind}`));
}

/** The share of cuts at a place that were reported. */
export function shareReported(answers: readonly CutAnswer[], isWanted: (cut: FinishedCut) => boolean): number {
  const wanted = answers.filter(isWanted);
  return wanted.filter(({ isReported }) => isReported).length / wanted.length;
}
