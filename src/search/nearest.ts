import { effectiveEdges, roundCrop } from '../geometry/crop.ts';
import type { EdgeName, Edges, Rectangle } from '../geometry/shapes.ts';
import { rectangleOf } from '../geometry/shapes.ts';
import type { Configuration } from '../rules/configuration.ts';
import type { ActiveLimit } from '../rules/report.ts';
import { activeLimits, isBroken } from '../rules/report.ts';
import type { Scene } from '../rules/scene.ts';
import { withCrop } from '../rules/scene.ts';
import type { Solution } from './branch.ts';
import { solve } from './branch.ts';
import type { SearchOptions } from './options.ts';
import type { Problem } from './problem.ts';
import { askedLimits, costOf, isByConstruction, isHard, meetsConditions, problemOf, weightOf } from './problem.ts';
import { reasonFor } from './reasons.ts';

/** A limit that the found crop does not meet, and why no better one does. */
export interface Broken {
  readonly rule: string;
  readonly person?: number;
  readonly joint?: string;
  readonly edge?: EdgeName;
  /** In plain words, to go after "because". */
  readonly reason: string;
}

export interface SearchAnswer {
  /** As the manifest writes it. */
  readonly crop: Rectangle;
  /** Of the written crop, in pixels of the turned picture. */
  readonly edges: Edges;
  /** What moving there costs, wishes included (see `costOf`). */
  readonly cost: number;
  readonly broken: readonly Broken[];
  /** The search was stopped by its node limit: there may be a better crop. */
  readonly bounded: boolean;
}

/** What measuring can be wrong by is kept away from whole, else half, else not at all. */
const DEPTHS = [1, 0.5, 0] as const;
/** People may come into a crop that opens; the search is done again with them, this often. */
const LOOKS = 3;
/** Written crops miss conditions by up to this, in pixels, and by one step of rounding. */
const WRITTEN_SLACK = 0.5;

interface Candidate {
  readonly edges: Edges;
  readonly weight: number;
  readonly bounded: boolean;
}

/**
 * The crop nearest to the scene's that breaks nothing, or breaks least. The present crop stays when it meets what must
 * hold and no other breaks less. Undefined when what must hold contradicts itself (`whyNoCrop` says how).
 */
export function nearestCrop(
  scene: Scene,
  configuration: Configuration,
  options: SearchOptions = {},
): SearchAnswer | undefined {
  const present = presentCandidate(scene, configuration, options);
  if (present?.weight === 0) return answerOf(scene, configuration, options, present);
  const found = bestFrom(scene, configuration, options);
  if (!found) return undefined;
  const best = present && present.weight <= found.weight ? { ...present, bounded: found.bounded } : found;
  return answerOf(scene, configuration, options, best);
}

/** The scene's own crop, when it meets what must hold. */
function presentCandidate(scene: Scene, configuration: Configuration, options: SearchOptions): Candidate | undefined {
  const { photo, crop } = scene;
  const mustMove = activeLimits(scene, configuration).some(
    (active) => isByConstruction(active) && isHard(active) && isBroken(active.limit, crop),
  );
  if (mustMove) return undefined;
  const slack = Math.max(WRITTEN_SLACK, photo.width / 5000, photo.height / 5000);
  const problem = problemOf(scene, configuration, options, 0);
  if (!meetsConditions({ ...problem, shape: undefined }, crop, slack)) return undefined;
  const { edges } = written(scene, crop);
  return { edges, weight: weightAt(scene, configuration, options, edges), bounded: false };
}

function bestFrom(scene: Scene, configuration: Configuration, options: SearchOptions): Candidate | undefined {
  let best: Candidate | undefined;
  let seen = scene;
  for (let look = 0; look < LOOKS; look++) {
    for (const depth of DEPTHS) {
      const solution = solve(problemOf(seen, configuration, options, depth), options.maximumNodes);
      if (!solution) return best;
      const candidate = candidateOf(scene, configuration, options, solution);
      if (!best || candidate.weight < best.weight) best = candidate;
      if (best.weight === 0) return best;
    }
    const next = seenAt(scene, best!.edges);
    if (sameView(seen, next)) break;
    seen = next;
  }
  return best;
}

/** The scene as the rules would see it with that crop, moves still counted from the present one. */
function seenAt(scene: Scene, edges: Edges): Scene {
  const { crop, length, upright } = scene;
  return { ...withCrop(scene, edges), crop, length, upright };
}

function sameView(a: Scene, b: Scene): boolean {
  return a.tallest === b.tallest && a.facing.length === b.facing.length;
}

function candidateOf(
  scene: Scene,
  configuration: Configuration,
  options: SearchOptions,
  solution: Solution,
): Candidate {
  const { edges } = written(scene, solution.edges);
  return { edges, weight: weightAt(scene, configuration, options, edges), bounded: solution.bounded };
}

/** Edge lines as a manifest would have them: rounded, and on the photo's own edge when next to it. */
function written(scene: Scene, edges: Edges): { crop: Rectangle; edges: Edges } {
  const crop = roundCrop(rectangleOf(edges, scene.photo));
  return { crop, edges: effectiveEdges(crop, scene.photo, scene.degrees) };
}

function brokenAt(scene: Scene, configuration: Configuration, options: SearchOptions, edges: Edges): ActiveLimit[] {
  const limits = askedLimits(withCrop(scene, edges), configuration, options);
  return limits.filter((active) => isHard(active) && isBroken(active.limit, edges));
}

function weightAt(scene: Scene, configuration: Configuration, options: SearchOptions, edges: Edges): number {
  return brokenAt(scene, configuration, options, edges).reduce((sum, active) => sum + weightOf(active), 0);
}

function answerOf(
  scene: Scene,
  configuration: Configuration,
  options: SearchOptions,
  candidate: Candidate,
): SearchAnswer {
  const problem = problemOf(scene, configuration, options, 0);
  const { crop, edges } = written(scene, candidate.edges);
  const broken = brokenAt(scene, configuration, options, edges).map((active) => brokenOf(problem, active));
  return { crop, edges, cost: costOf(problem, edges), broken, bounded: candidate.bounded };
}

function brokenOf(problem: Problem, active: ActiveLimit): Broken {
  const { person, joint, edge } = active.limit;
  return {
    rule: active.rule.id,
    ...(person !== undefined && { person }),
    ...(joint !== undefined && { joint }),
    ...(edge !== undefined && { edge }),
    reason: reasonFor(problem, active),
  };
}
