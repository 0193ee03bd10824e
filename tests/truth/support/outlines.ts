import { insideAt, type Stretch } from '../../../src/people/stretches.ts';
import type { FoundPerson } from './errors.ts';
import { heightsOfLabels } from './widths.ts';

/** Shared area over joint area (IoU) of a measured outline and the labelled mask or drawn polygons, 0 to 1. */
export function outlineOverlap({ photo, labelled, found }: Pick<FoundPerson, 'photo' | 'labelled' | 'found'>): number {
  const { width, height } = photo.size;
  const corners = (found.outline ?? []).map(({ x, y }) => ({ x: x * width, y: y * height }));
  const rows = Array.from({ length: height }, (_, row) => row + 0.5);
  const gaps = (found.gaps ?? []).map((gap) => gap.map(({ x, y }) => ({ x: x * width, y: y * height })));
  const inside = insideAt(corners, rows, gaps);
  const truth = heightsOfLabels(labelled, photo)(rows);
  let [shared, measuredArea, labelledArea] = [0, 0, 0];
  for (const row of rows) {
    const ours = inside.get(row) ?? [];
    const theirs = truth.get(row) ?? [];
    measuredArea += lengthOf(ours);
    labelledArea += lengthOf(theirs);
    for (const [left, right] of ours) {
      for (const [from, to] of theirs) shared += Math.max(0, Math.min(right, to) - Math.max(left, from));
    }
  }
  return shared / (measuredArea + labelledArea - shared);
}

function lengthOf(stretches: readonly Stretch[]): number {
  return stretches.reduce((sum, [from, to]) => sum + to - from, 0);
}
