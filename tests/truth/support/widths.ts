import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Point } from '../../../src/geometry/shapes.ts';
import { insideAt, type Stretch } from '../../../src/people/stretches.ts';
import type { LabelledPerson, LabelledPhoto } from './labels.ts';
import { LABELLED_PHOTOS } from './shared-folder.ts';

/** The stretches of each height at which a labelled person is seen, from the left. */
export type Heights = ReadonlyMap<number, readonly Stretch[]>;

/** Where the labels have somebody at any heights: from the exact mask, or from the polygons that people drew. */
export function heightsOfLabels(person: LabelledPerson, photo: LabelledPhoto): (heights: readonly number[]) => Heights {
  if (person.maskRuns) return heightsOfMask(person.maskRuns, photo);
  const polygons = polygonsOf(person, photo);
  return (heights) => {
    const each = polygons.map((polygon) => insideAt(polygon, heights));
    return new Map(heights.map((y) => [y, joined(each.flatMap((stretches) => stretches.get(y) ?? []))]));
  };
}

/** The pixel rows of a mask; its runs go down the columns. */
function heightsOfMask(runs: readonly number[], { size }: LabelledPhoto): (heights: readonly number[]) => Heights {
  const isSeen = new Uint8Array(size.width * size.height);
  let at = 0;
  runs.forEach((run, index) => {
    if (index % 2 === 1) isSeen.fill(1, at, at + run);
    at += run;
  });
  const rowOf = (y: number): Stretch[] => {
    const stretches: Stretch[] = [];
    let start: number | undefined;
    for (let x = 0; x <= size.width; x++) {
      const seen = x < size.width && isSeen[x * size.height + Math.floor(y)] === 1;
      if (seen && start === undefined) start = x;
      if (!seen && start !== undefined) {
        stretches.push([start, x]);
        start = undefined;
      }
    }
    return stretches;
  };
  return (heights) => new Map(heights.filter((y) => y >= 0 && y < size.height).map((y) => [y, rowOf(y)]));
}

/** Stretches without overlaps, from the left. */
function joined(stretches: readonly Stretch[]): Stretch[] {
  const result: [number, number][] = [];
  for (const [from, to] of [...stretches].sort((a, b) => a[0] - b[0])) {
    const last = result.at(-1);
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else result.push([from, to]);
  }
  return result;
}

interface Drawn {
  readonly annotations: readonly {
    readonly image_id: number;
    readonly bbox: number[];
    readonly segmentation: number[][];
  }[];
}

/** The polygons drawn around a COCO person (the labels name nobody: found again by the box). */
function polygonsOf(person: LabelledPerson, { name }: LabelledPhoto): Point[][] {
  const file = JSON.parse(readFileSync(join(LABELLED_PHOTOS, 'test_coco.json'), 'utf8')) as Drawn;
  const drawn = file.annotations.find(
    ({ image_id: image, bbox }) =>
      image === Number(name.replace('.jpg', '')) && bbox.every((side, index) => side === person.box[index]),
  );
  return (drawn?.segmentation ?? []).map((flat) =>
    Array.from({ length: flat.length / 2 }, (_, index) => ({ x: flat[2 * index]!, y: flat[2 * index + 1]! })),
  );
}
