import type { Point } from '../../../src/geometry/shapes.ts';
import { BODY_POINTS, type PointName } from '../../../src/people/points.ts';
import { COCO_SIGMAS } from '../../../src/vision/stages/suppress.ts';
import type { LabelledPerson } from './labels.ts';

export type FoundPoints = ReadonlyMap<PointName, Point>;

export interface Match<Found> {
  readonly labelled: LabelledPerson;
  /** Absent: missed. */
  readonly found?: Found;
  /** Object keypoint similarity, 0 when missed. */
  readonly oks: number;
}

/**
 * COCO's object keypoint similarity: mean over the labelled points of exp(−d² / (2 · area · (2σ)²)); a point that was
 * not found counts as infinitely far (Lin et al., 2014; cocodataset.org, "Keypoint Evaluation").
 */
export function objectKeypointSimilarity(labelled: LabelledPerson, found: FoundPoints): number {
  let sum = 0;
  let count = 0;
  BODY_POINTS.forEach((name, k) => {
    const truth = labelled.points.get(name);
    if (truth === undefined) return;
    count += 1;
    const point = found.get(name);
    if (point === undefined) return;
    const squared = (point.x - truth.x) ** 2 + (point.y - truth.y) ** 2;
    sum += Math.exp(-squared / (2 * labelled.area * (2 * COCO_SIGMAS[k]!) ** 2));
  });
  return count === 0 ? 0 : sum / count;
}

/** One found person for each labelled one at most, the most alike first. Below 0.1 nobody is matched. */
export function matchPeople<Found>(
  labelled: readonly LabelledPerson[],
  found: readonly Found[],
  pointsOf: (found: Found) => FoundPoints,
): Match<Found>[] {
  const pairs = labelled
    .flatMap((person) =>
      found.map((other) => ({ person, other, oks: objectKeypointSimilarity(person, pointsOf(other)) })),
    )
    .sort((a, b) => b.oks - a.oks);
  const chosen = new Map<LabelledPerson, { found: Found; oks: number }>();
  const taken = new Set<Found>();
  for (const { person, other, oks } of pairs) {
    if (oks < 0.1 || chosen.has(person) || taken.has(other)) continue;
    chosen.set(person, { found: other, oks });
    taken.add(other);
  }
  return labelled.map((person) => ({ labelled: person, oks: 0, ...chosen.get(person) }));
}
