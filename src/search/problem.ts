import { PHOTO_EDGE } from '../geometry/crop.ts';
import type { HalfSpace } from '../geometry/half-space.ts';
import { atLeast, atMost, excess } from '../geometry/half-space.ts';
import type { Edges, Size } from '../geometry/shapes.ts';
import { diagonalOf, heightOf, widthOf } from '../geometry/shapes.ts';
import type { Configuration } from '../rules/configuration.ts';
import { isCoveredBy } from '../rules/finding.ts';
import type { ActiveLimit } from '../rules/active-limit.ts';
import { activeLimits } from '../rules/report.ts';
import type { Scene } from '../rules/scene.ts';
import { POSSIBLE_SHARE, WEIGHT } from '../rules/weights.ts';
import { alwaysMeets } from './box.ts';
import { reachOf } from './compiled.ts';
import type { Condition } from './conditions.ts';
import { conditionsOf, roundingStep } from './conditions.ts';
import { guarded, guardedBound } from './guard.ts';
import type { SearchOptions } from './options.ts';
import type { Wish } from './wishes.ts';
import { wishesOf } from './wishes.ts';

/** An either-or that should hold: breaking it costs its weight, however far it is missed. */
export interface Clause {
  readonly escapes: readonly HalfSpace[];
  readonly weight: number;
  /** The limit it comes from; none for what the written form of a crop asks. */
  readonly source?: ActiveLimit;
}

/** A search as numbers alone. Everything in pixels of the turned picture. */
export interface Problem {
  readonly photo: Size;
  readonly diagonal: number;
  /** Where the crop's edges are; moving away from here costs. */
  readonly present: Edges;
  /** Width over height; undefined: free. */
  readonly shape: number | undefined;
  readonly conditions: readonly Condition[];
  readonly clauses: readonly Clause[];
  readonly wishes: readonly Wish[];
}

/** A condition missed by less is met, in pixels: far under what a written crop can tell. */
export const TOLERANCE = 1e-6;

/** Ties are broken by the least move of the crop's centre (rather across than up or down), then by left, then by top. */
export const TIE_BREAK = { centreX: 1e-4, centreY: 1.1e-4, left: 1e-7, top: 1e-8 } as const;

/** Rules whose limits hold by the conditions of the search. */
const BY_CONSTRUCTION: ReadonlySet<string> = new Set(['outside-photo', 'aspect']);

/**
 * The search for a crop of this scene. With `depth` 1 places are kept away from by what measuring can be wrong, with 0
 * only by what the rules ask (and what writing four decimals can change).
 */
export function problemOf(scene: Scene, configuration: Configuration, options: SearchOptions, depth: number): Problem {
  return problemFrom(scene, askedOf(activeLimits(scene, configuration), options), options, depth);
}

/** The same from limits that are at hand. */
export function problemFrom(
  scene: Scene,
  asked: readonly ActiveLimit[],
  options: SearchOptions,
  depth: number,
): Problem {
  return new Problems(scene, asked, options).at(depth);
}

/** The greatest depth of a search. */
const DEEPEST = 1;

/** The problems of one search at several depths: what they share is made once. */
export class Problems {
  private readonly scene: Scene;
  private readonly options: SearchOptions;
  private readonly hard: readonly ActiveLimit[];
  private readonly shared: Omit<Problem, 'clauses'>;

  constructor(scene: Scene, asked: readonly ActiveLimit[], options: SearchOptions) {
    const { photo, crop, shape } = scene;
    const hints = asked.filter((active) => !isHard(active));
    this.scene = scene;
    this.options = options;
    this.shared = {
      photo,
      diagonal: diagonalOf(photo),
      present: crop,
      shape,
      conditions: conditionsOf(scene, options),
      wishes: wishesOf(scene, hints),
    };
    this.hard = this.openOnes(asked.filter(isHard));
  }

  at(depth: number): Problem {
    const { photo, degrees } = this.scene;
    const clauses = photoEdgeClauses(this.scene);
    for (const source of this.hard) {
      const { escapes, deeper } = source.limit;
      const deep = escapes.map((escape) => guarded(escape, photo, degrees !== 0, depth * deeper));
      clauses.push({ escapes: deep, weight: weightOf(source, this.options), source });
    }
    return { ...this.shared, clauses };
  }

  /** Without those that every crop meets, at any depth: most places on a body are far from where an edge can be. */
  private openOnes(hard: readonly ActiveLimit[]): readonly ActiveLimit[] {
    const { photo, degrees } = this.scene;
    const reach = hard.length > 0 ? reachOf(this.shared) : undefined;
    if (!reach) return hard;
    const isMet = (escape: HalfSpace, deeper: number): boolean =>
      alwaysMeets(reach.box, escape, guardedBound(escape, photo, degrees !== 0, DEEPEST * deeper));
    return hard.filter(({ limit }) => !limit.escapes.some((escape) => isMet(escape, limit.deeper)));
  }
}

/** The limits that a search takes note of: those that the frame does not allow to break. */
export function askedOf(active: readonly ActiveLimit[], { allow = [], only }: SearchOptions): ActiveLimit[] {
  return active.filter((candidate) => {
    if (isByConstruction(candidate) || allow.some((key) => isAllowed(key, candidate))) return false;
    return !isHard(candidate) || !only || only(candidate);
  });
}

function isAllowed(key: string, { rule, limit: { joint } }: ActiveLimit): boolean {
  return isCoveredBy(key, { rule: rule.id, joint });
}

/** Whether the limit holds for every crop that the search can find. */
export function isByConstruction({ rule }: ActiveLimit): boolean {
  return BY_CONSTRUCTION.has(rule.id);
}

/** What must not break; the rest is wished. */
export function isHard(active: ActiveLimit): boolean {
  return active.severity !== 'info';
}

export function weightOf(active: ActiveLimit, { keep }: SearchOptions): number {
  const { rule, limit } = active;
  return rule.weight * (limit.possible ? POSSIBLE_SHARE : 1) + (keep?.(active) ? WEIGHT.kept : 0);
}

/** An edge so near to the photo's own that it becomes it must be written there, or stay clearly away. */
function photoEdgeClauses(scene: Scene): Clause[] {
  if (scene.degrees !== 0) return [];
  const { width, height } = scene.photo;
  const either = (escapes: HalfSpace[]): Clause => ({ escapes, weight: WEIGHT.shape });
  const clear = (side: number) => PHOTO_EDGE * side + roundingStep(side);
  return [
    either([atMost('left', 0), atLeast('left', clear(width))]),
    either([atMost('top', 0), atLeast('top', clear(height))]),
    either([atLeast('right', width), atMost('right', width - clear(width))]),
    either([atLeast('bottom', height), atMost('bottom', height - clear(height))]),
  ];
}

/** Whether the crop is of the problem's shape and meets its conditions. */
export function meetsConditions(problem: Problem, edges: Edges): boolean {
  const { shape, conditions } = problem;
  if (shape !== undefined && Math.abs(widthOf(edges) - shape * heightOf(edges)) > TOLERANCE) return false;
  for (const { halfSpace } of conditions) if (excess(halfSpace, edges) > TOLERANCE) return false;
  return true;
}

/** Sum of the weights of the clauses that a crop with these edge lines breaks. */
export function brokenWeight(problem: Problem, edges: Edges): number {
  let weight = 0;
  for (const clause of problem.clauses) {
    if (missOf(clause.escapes, edges) > TOLERANCE) weight += clause.weight;
  }
  return weight;
}

/** What a crop with these edge lines costs: the moves of its edges over the photo's diagonal, and its wishes. */
export function costOf(problem: Problem, edges: Edges): number {
  const { present } = problem;
  const moves =
    Math.abs(edges.left - present.left) +
    Math.abs(edges.top - present.top) +
    Math.abs(edges.right - present.right) +
    Math.abs(edges.bottom - present.bottom);
  const centreX = Math.abs(edges.left + edges.right - present.left - present.right) / 2;
  const centreY = Math.abs(edges.top + edges.bottom - present.top - present.bottom) / 2;
  let cost = moves + TIE_BREAK.centreX * centreX + TIE_BREAK.centreY * centreY;
  cost += TIE_BREAK.left * edges.left + TIE_BREAK.top * edges.top;
  for (const wish of problem.wishes) cost += wish.weight * missOf(wish.escapes, edges);
  return cost / problem.diagonal;
}

/** By how many pixels the edges miss the nearest escape; zero when they meet one. */
export function missOf(escapes: readonly HalfSpace[], edges: Edges): number {
  let least = Infinity;
  for (const escape of escapes) {
    const miss = excess(escape, edges);
    if (miss <= 0) return 0;
    if (miss < least) least = miss;
  }
  return least;
}
