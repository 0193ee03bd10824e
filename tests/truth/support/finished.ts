import type { Edges } from '../../../src/geometry/shapes.ts';
import { POSSIBLE } from '../../../src/people/confidence.ts';
import type { Person } from '../../../src/people/person.ts';
import type { PointName } from '../../../src/people/points.ts';
import { decodePhoto, type Pixels } from '../../../src/photos/decode.ts';
import { LONG_EDGE, measurePixels } from '../../../src/vision/measure.ts';
import type { ModelSet } from '../../../src/vision/models/model-set.ts';
import { frameOf, kindsAt, namesOf, NEAR, percentFromEdge, type FinishedCut } from './finished-cuts.ts';
import { jointCutSays } from './finished-rule.ts';
import { labelledPerson } from './labelled-people.ts';
import type { LabelledPerson } from './labels.ts';
import { matchPeople } from './match.ts';
import { pixelPoints, type PixelPoint } from './measured.ts';

export interface CutAnswer {
  readonly cut: FinishedCut;
  /** A joint of the cut's kind (along a bone: any of that limb) was measured near the edge. */
  readonly isReported: boolean;
  /** The rule `joint-cut` has something to say of the edge and such a joint: by the labels, and by the pixels. */
  readonly isCut: boolean;
  readonly isSaid: boolean;
}

/** Measures each cut picture. People who are not found in it report nothing. */
export async function answerCuts(models: ModelSet, cuts: readonly FinishedCut[]): Promise<CutAnswer[]> {
  const answers: CutAnswer[] = [];
  for (const cut of cuts) {
    const { pixels, frame } = await cutPicture(cut);
    const people = await measurePixels(pixels, models);
    const pointsOf = (person: Person): Map<PointName, PixelPoint> => pointsInPhoto(person, cut, frame);
    const [match] = matchPeople([shownIn(cut.person, frame)], people, pointsOf);
    const found = match?.found;
    const points = found && pointsOf(found);
    const isReported = namesOf(kindsAt(cut)).some((name) => {
      const point = points?.get(name);
      return point !== undefined && point.confidence >= POSSIBLE && percentFromEdge(cut, point) <= NEAR;
    });
    const labelled = labelledPerson(cut.person, frame);
    answers.push({
      cut,
      isReported,
      isCut: jointCutSays(cut, frame, labelled),
      isSaid: found !== undefined && jointCutSays(cut, frame, found),
    });
  }
  return answers;
}

/** The points of somebody in the cut picture, in pixels of the whole photo. */
function pointsInPhoto(person: Person, { photo }: FinishedCut, frame: Edges): Map<PointName, PixelPoint> {
  const size = { width: frame.right - frame.left, height: frame.bottom - frame.top };
  const points = [...pixelPoints(person, { ...photo, size })];
  return new Map(points.map(([name, point]) => [name, { ...point, x: point.x + frame.left }]));
}

/** The decoded photo up to the edge, and what it shows of the whole photo, to the pixel. */
async function cutPicture(cut: FinishedCut): Promise<{ pixels: Pixels; frame: Edges }> {
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

function shownIn(person: LabelledPerson, { left, right, bottom }: Edges): LabelledPerson {
  const shown = [...person.points].filter(([, { x, y }]) => x > left && x < right && y < bottom);
  return { ...person, points: new Map(shown) };
}

/** Of the cuts that are wanted: how many, and the share of them that answers yes. */
export function shareOf(
  answers: readonly CutAnswer[],
  isWanted: (answer: CutAnswer) => boolean,
  isYes: (answer: CutAnswer) => boolean = ({ isReported }) => isReported,
): { readonly share: number; readonly asked: number } {
  const wanted = answers.filter(isWanted);
  return { share: wanted.filter(isYes).length / wanted.length, asked: wanted.length };
}
