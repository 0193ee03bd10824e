import type { ModelSet } from '../../src/vision/models/model-set.ts';
import {
  BONE_PLACES, CUT_JOINTS, CUT_OFFSETS, finishedCuts, isBoneCut, NEAR, SIDE_JOINTS, WELL_CLEAR,
} from '../truth/support/finished-cuts.ts'; // prettier-ignore
import { answerCuts, shareOf, type CutAnswer } from '../truth/support/finished.ts';
import type { LabelledPhoto } from '../truth/support/labels.ts';
import { percent } from './percent.ts';

/** Every n-th cut picture of a large set is measured: all of them take half an hour. */
const EVERY_CUT = 4;
const LARGE_SET = 10;
/** Places and confidences beyond the edge were chosen on the rendered photos and on these; the others tell how good it is. */
const CHOSEN_ON = ['000000000785.jpg', '000000197388.jpg'];

type Wanted = (answer: CutAnswer) => boolean;

/** How often the edge of a finished picture is reported, at joints and along bones, from the cut pictures alone. */
export async function finishedTables(models: ModelSet, photos: readonly LabelledPhoto[]): Promise<string> {
  const isLarge = photos.length >= LARGE_SET;
  const cuts = finishedCuts(photos).filter((_, index) => !isLarge || index % EVERY_CUT === 0);
  const answers = await answerCuts(models, cuts);
  const tables = [
    `Finished pictures (only the cut picture is measured; ${answers.length} cuts; reported means a possible or firm joint`,
    `within ${NEAR} % of the edge; each cell says of how many cuts):`,
    '',
    tableOf(answers),
  ];
  if (!isLarge) {
    const isHeldOut: Wanted = ({ cut }) => !CHOSEN_ON.includes(cut.photo.name);
    tables.push('', 'The same for the two photos on which nothing was chosen for joints beyond the edge:', '');
    tables.push(tableOf(answers.filter(isHeldOut)));
  }
  return tables.join('\n');
}

function tableOf(answers: readonly CutAnswer[]): string {
  const joints = [
    ...CUT_JOINTS.map((place) => ({ place, isSide: false })),
    ...SIDE_JOINTS.map((place) => ({ place, isSide: true })),
  ].map(({ place, isSide }) => {
    const cells = CUT_OFFSETS.map((offset) =>
      cell(answers, ({ cut }) => cut.place === place && (cut.edge !== 'bottom') === isSide && cut.offset === offset),
    );
    return `| ${place}, ${isSide ? 'side' : 'lower'} edge | ${cells.join(' | ')} |`;
  });
  const bones = BONE_PLACES.map((place) => {
    const all: Wanted = ({ cut }) => cut.place === place;
    const clear: Wanted = ({ cut }) => cut.place === place && cut.clear > WELL_CLEAR;
    return `| ${place} | ${cell(answers, all)} | ${cell(answers, clear)} |`;
  });
  return [
    '| cut at | 4 % inside the joint | at the joint | 4 % outside |',
    '| --- | --- | --- | --- |',
    ...joints,
    '',
    `| false alarms, at 40, 50 and 60 % of a bone | every joint over ${NEAR} % away | over ${WELL_CLEAR} % away |`,
    '| --- | --- | --- |',
    ...bones,
    '',
    ...whatTheRuleSays(answers),
  ].join('\n');
}

/** The rule asks for less than the tables: a joint nearer than 6 % of a limb, or a limb cut where a cut is not fine. */
function whatTheRuleSays(answers: readonly CutAnswer[]): string[] {
  const isSaid: Wanted = (answer) => answer.isSaid;
  const ruled = answers.filter(({ cut }) => !isBoneCut(cut) || cut.edge === 'bottom');
  const thigh: Wanted = ({ cut, isCut }) => cut.place === 'mid-thigh' && !isCut;
  return [
    `What the rule joint-cut says: of edges that cut by the labels it says so from the pixels in ` +
      `${cell(ruled, ({ isCut }) => isCut, isSaid)}; where they do not, it says so all the same in ` +
      `${cell(ruled, ({ isCut }) => !isCut, isSaid)} (at mid-thigh ${cell(ruled, thigh, isSaid)}).`,
  ];
}

function cell(answers: readonly CutAnswer[], isWanted: Wanted, isYes?: Wanted): string {
  const { share, asked } = shareOf(answers, isWanted, isYes);
  return asked === 0 ? '–' : `${percent(share)} of ${asked}`;
}
