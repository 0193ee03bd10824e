import { POSSIBLE } from '../../../src/people/confidence.ts';
import type { Edges } from '../../../src/geometry/shapes.ts';
import { decodePhoto, type Pixels } from '../../../src/photos/decode.ts';
import { LONG_EDGE, measurePixels } from '../../../src/vision/measure.ts';
import type { ModelSet } from '../../../src/vision/models/model-set.ts';
import { CUT_BONES, frameOf, namesOf, NEAR, percentFromEdge, type BonePlace, type FinishedCut } from './finished-cuts.ts';
import type { LabelledPerson } from './labels.ts';
import { matchPeople } from './match.ts';
import { pixelPoints } from './measured.ts';

export interface CutAnswer extends FinishedCut {
  /** A joint of the cut's kind (along a bone: any of that limb) was measured near the edge. */
  readonly isReported: boolean;
}

/** Measures each cut picture. People who are not found in it report nothing. */
export async function answerCuts(models: ModelSet, cuts: readonly FinishedCut[]): Promise<CutAnswer[]> {
  const answers: CutAnswer[] = [];
  for (const cut of cuts) {
    const { pixels, frame } = await cutPicture(cut);
    const people = await measurePixels(pixels, models);
    const size = { width: frame.right - frame.left, height: frame.bottom - frame.top };
    const pointsOf = (person: (typeof people)[number]) => {
      const points = [...pixelPoints(person, { ...cut.photo, size })];
      return new Map(points.map(([name, point]) => [name, { ...point, x: point.x + frame.left }] as const));
    };
    const [match] = matchPeople([shownIn(cut.person, frame)], people, pointsOf);
    const points = match?.found === undefined ? undefined : pointsOf(match.found);
    const kinds = cut.place in CUT_BONES ? CUT_BONES[cut.place as BonePlace].alarms : [cut.place];
    const isReported = namesOf(kinds as Parameters<typeof namesOf>[0]).some((name) => {
      const point = points?.get(name);
      return point !== undefined && point.confidence >= POSSIBLE && percentFromEdge(cut, point) <= NEAR;
    });
    answers.push({ ...cut, isReported });
  }
  return answers;
}

/** The decoded photo up to the edge, and what it shows of the whole photo, to the pixel. */
export async function cutPicture(cut: FinishedCut): Promise<{ pixels: Pixels; frame: Edges }> {
  const { pixels } = await decodePhoto(cut.photo.path, LONG_EDGE);
  const scale = pixels.width / cut.photo.size.width;
  const frame = frameOf(cut);
  const left = Math.round(frame.left * scale);
  const right = Math.round(frame.right * scale);
  const height = Math.round(frame.bottom * scale);
  const width = right - left;
  const data = new Uint8Array(3 * width * height);
  for (let row = 0; row < height; row++) {
    const from = 3 * (row * pixels.width + left);
    data.set(pixels.data.subarray(from, from + 3 * width), 3 * row * width);
  }
  return {
    pixels: { data, width, height },
    frame: { left: left / scale, top: 0, right: right / scale, bottom: height / scale },
  };
}

export function shownIn(person: LabelledPerson, frame: Edges): LabelledPerson {
  const isShown = ({ x, y }: { x: number; y: number }) => x > frame.left && x < frame.right && y < frame.bottom;
  return { ...person, points: new Map([...person.points].filter(([, point]) => isShown(point))) };
}

/** The share of cuts at a place that were reported. */
export function shareReported(answers: readonly CutAnswer[], isWanted: (cut: FinishedCut) => boolean): number {
  const wanted = answers.filter(isWanted);
  return wanted.filter(({ isReported }) => isReported).length / wanted.length;
}
