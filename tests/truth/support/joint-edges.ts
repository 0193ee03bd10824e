import type { Person } from '../../../src/people/person.ts';
import { POSSIBLE } from '../../../src/people/confidence.ts';
import { SIDES, type BodyPoint } from '../../../src/people/points.ts';
import { sizeOfPerson, type LabelledPerson, type LabelledPhoto } from './labels.ts';
import { pixelPoints, type MeasuredPhoto } from './measured.ts';

export const JOINT_KINDS = ['elbow', 'wrist', 'hip', 'knee', 'ankle'] as const;
export type JointKind = (typeof JOINT_KINDS)[number];

const BONES = [
  ['shoulder', 'elbow'],
  ['elbow', 'wrist'],
  ['hip', 'knee'],
  ['knee', 'ankle'],
] as const;

/** An edge within this many percent of the person's size of a joint counts as cutting it. */
const BAND = 4;
/** The middle of a bone counts only where no labelled joint is nearer than this. */
const CLEAR = 6;

export interface EdgeAnswers {
  readonly kind: string;
  readonly asked: number;
  readonly reported: number;
}

/**
 * A level crop edge is laid on each labelled joint of everybody (also those who were not found): is a measured joint of
 * that kind and person within the band?
 */
export function jointsReported(photos: readonly MeasuredPhoto[]): EdgeAnswers[] {
  return JOINT_KINDS.map((kind) => {
    const answers = everybody(photos).flatMap(({ photo, labelled, found }) =>
      SIDES.flatMap((side) => {
        const truth = labelled.points.get(`${side}_${kind}`);
        return truth === undefined ? [] : [found !== undefined && isReported(photo, labelled, found, truth.y, [kind])];
      }),
    );
    return { kind, asked: answers.length, reported: answers.filter(Boolean).length };
  });
}

/** A level edge is laid on the middle of each labelled bone with no labelled joint near: is any joint reported? */
export function falseAlarms(photos: readonly MeasuredPhoto[]): EdgeAnswers[] {
  return BONES.map(([from, to]) => {
    const answers = everybody(photos).flatMap(({ photo, labelled, found }) =>
      SIDES.flatMap((side) => {
        const start = labelled.points.get(`${side}_${from}`);
        const end = labelled.points.get(`${side}_${to}`);
        if (found === undefined || start === undefined || end === undefined) return [];
        const y = (start.y + end.y) / 2;
        const isClear = jointsOf(labelled).every((joint) => percentApart(joint.y, y, labelled) > CLEAR);
        return isClear ? [isReported(photo, labelled, found, y, JOINT_KINDS)] : [];
      }),
    );
    return { kind: `${from} to ${to}`, asked: answers.length, reported: answers.filter(Boolean).length };
  });
}

export function totalOf(answers: readonly EdgeAnswers[]): number {
  const sum = (key: 'asked' | 'reported'): number => answers.reduce((total, answer) => total + answer[key], 0);
  return sum('reported') / sum('asked');
}

function everybody(photos: readonly MeasuredPhoto[]) {
  return photos.flatMap(({ labelled: photo, matches }) => matches.map((match) => ({ photo, ...match })));
}

function jointsOf(person: LabelledPerson) {
  const names = SIDES.flatMap((side) => JOINT_KINDS.map((kind): BodyPoint => `${side}_${kind}`));
  return names.flatMap((name) => person.points.get(name) ?? []);
}

function isReported(
  photo: LabelledPhoto,
  labelled: LabelledPerson,
  found: Person,
  y: number,
  kinds: readonly JointKind[],
) {
  const points = pixelPoints(found, photo);
  return SIDES.flatMap((side) => kinds.map((kind): BodyPoint => `${side}_${kind}`)).some((name) => {
    const point = points.get(name);
    return point !== undefined && point.confidence >= POSSIBLE && percentApart(point.y, y, labelled) <= BAND;
  });
}

function percentApart(first: number, second: number, person: LabelledPerson): number {
  return (100 * Math.abs(first - second)) / sizeOfPerson(person);
}
