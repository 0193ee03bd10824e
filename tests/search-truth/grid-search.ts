import type { HalfSpace } from '../../src/geometry/half-space.ts';
import type { EdgeName, Edges } from '../../src/geometry/shapes.ts';
import { EDGE_NAMES } from '../../src/geometry/shapes.ts';
import type { Problem } from '../../src/search/problem.ts';
import { brokenWeight, costOf, meetsConditions } from '../../src/search/problem.ts';

/** A crop with what it breaks and costs. */
export interface Judged {
  readonly edges: Edges;
  readonly weight: number;
  readonly cost: number;
}

const FINEST = 4e-3;

/**
 * The best crop on a grid: all edges at even steps, at the present crop and at every place that a limit names, heights
 * at even steps; then step by step from the best ones, down to less than a hundredth of a pixel. Shares cost and checker with
 * the search, and nothing of its solver.
 */
export function gridSearch(problem: Problem, steps: number): Judged | undefined {
  const starts = keepBest(gridOf(problem, steps), problem, 2);
  let best: Judged | undefined;
  for (const start of starts) {
    const refined = refine(problem, start);
    if (!best || isBetter(refined, best)) best = refined;
  }
  return best;
}

export function isBetter(a: Judged, b: Judged): boolean {
  return a.weight < b.weight - 1e-6 || (a.weight <= b.weight + 1e-6 && a.cost < b.cost);
}

function keepBest(crops: Iterable<Edges>, problem: Problem, count: number): Judged[] {
  const kept: Judged[] = [];
  for (const edges of crops) {
    const last = kept[count - 1];
    const judged = judge(problem, edges, last?.weight);
    if (!judged || (last && !isBetter(judged, last))) continue;
    kept.push(judged);
    kept.sort((a, b) => (isBetter(a, b) ? -1 : 1));
    kept.length = Math.min(kept.length, count);
  }
  return kept;
}

/** Undefined when the crop does not meet the conditions, or breaks more than `most`. */
function judge(problem: Problem, edges: Edges, most = Infinity): Judged | undefined {
  if (!meetsConditions(problem, edges)) return undefined;
  const weight = brokenWeight(problem, edges);
  return weight > most + 1e-6 ? undefined : { edges, weight, cost: costOf(problem, edges) };
}

function* gridOf(problem: Problem, steps: number): Iterable<Edges> {
  const { shape, photo, present } = problem;
  yield present;
  const lefts = placesOf(problem, 'left', steps, photo.width);
  const tops = placesOf(problem, 'top', steps, photo.height);
  const rights = placesOf(problem, 'right', steps, photo.width);
  const bottoms = placesOf(problem, 'bottom', steps, photo.height);
  if (shape === undefined) {
    for (const left of lefts)
      for (const top of tops)
        for (const right of rights) for (const bottom of bottoms) yield { left, top, right, bottom };
    return;
  }
  // Two edges that face each other, and one across; or two that meet, and a height.
  for (const top of tops)
    for (const bottom of bottoms) {
      const width = shape * (bottom - top);
      for (const left of lefts) yield { left, top, right: left + width, bottom };
      for (const right of rights) yield { left: right - width, top, right, bottom };
    }
  for (const left of lefts)
    for (const right of rights) {
      const height = (right - left) / shape;
      for (const top of tops) yield { left, top, right, bottom: top + height };
      for (const bottom of bottoms) yield { left, top: bottom - height, right, bottom };
    }
}

/** Places for one edge: even steps, where it is, and what limits name; those nearest to where it is, when too many. */
function placesOf(problem: Problem, edge: EdgeName, steps: number, side: number): number[] {
  const here = problem.present[edge];
  const halfSpaces = [
    ...problem.conditions.map(({ halfSpace }) => halfSpace),
    ...[...problem.clauses, ...problem.wishes].flatMap(({ escapes }) => escapes),
  ];
  const named = halfSpaces
    .filter((halfSpace) => isOf(halfSpace, edge))
    .map(({ [edge]: factor, atMost }) => atMost / factor);
  const near = [...new Set(named)]
    .filter((place) => place >= 0 && place <= side)
    .sort((a, b) => Math.abs(a - here) - Math.abs(b - here))
    .slice(0, steps);
  const even = Array.from({ length: steps }, (_, index) => (index / (steps - 1)) * side);
  return [...new Set([here, ...near, ...even])];
}

function isOf(halfSpace: HalfSpace, edge: EdgeName): boolean {
  return EDGE_NAMES.every((name) => (halfSpace[name] !== 0) === (name === edge));
}

/** Moves by ever smaller steps as long as that helps. */
function refine(problem: Problem, start: Judged): Judged {
  let best = start;
  for (let step = problem.diagonal / 64; step > FINEST;) {
    const next = movesOf(problem, step)
      .map((move) => judge(problem, move(best.edges), best.weight))
      .filter((judged) => judged !== undefined)
      .reduce((a, b) => (isBetter(b, a) ? b : a), best);
    if (isBetter(next, best)) best = next;
    else step /= 2;
  }
  return best;
}

function movesOf({ shape }: Problem, step: number): ((edges: Edges) => Edges)[] {
  const shift = (left: number, top: number, right: number, bottom: number) => (edges: Edges) => ({
    left: edges.left + left * step,
    top: edges.top + top * step,
    right: edges.right + right * step,
    bottom: edges.bottom + bottom * step,
  });
  const signs = [-1, 1];
  const slides = signs.flatMap((sign) => [shift(sign, 0, sign, 0), shift(0, sign, 0, sign)]);
  if (shape === undefined) {
    const single = signs.flatMap((s) => [shift(s, 0, 0, 0), shift(0, s, 0, 0), shift(0, 0, s, 0), shift(0, 0, 0, s)]);
    return [...slides, ...single];
  }
  // A corner, the middle of a side, or the centre stays while the size changes.
  const anchors = [0, 0.5, 1];
  const sizes = signs.flatMap((sign) =>
    anchors.flatMap((x) =>
      anchors.map((y) => shift(-x * shape * sign, -y * sign, (1 - x) * shape * sign, (1 - y) * sign)),
    ),
  );
  return [...slides, ...sizes];
}
