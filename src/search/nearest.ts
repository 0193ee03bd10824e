import { effectiveEdges, roundCrop } from '../geometry/crop.ts';
import { excess } from '../geometry/half-space.ts';
import type { EdgeName, Edges, Rectangle } from '../geometry/shapes.ts';
import { rectangleOf } from '../geometry/shapes.ts';
import type { Configuration } from '../rules/configuration.ts';
import type { ActiveLimit } from '../rules/active-limit.ts';
import { activeLimits, isBroken } from '../rules/report.ts';
import type { Scene } from '../rules/scene.ts';
import { withCrop } from '../rules/scene.ts';
import { solve, type Solution } from './branch.ts';
import { conditionsOf, roundingStep } from './conditions.ts';
import type { SearchOptions } from './options.ts';
import type { Problem } from './problem.ts';
import { askedOf, costOf, isByConstruction, isHard, problemFrom, Problems, weightOf } from './problem.ts';
import { reasonFor } from './reasons.ts';

/** A limit that the found crop does not meet, and why no better one does. */
export interface Broken {
  readonly rule: string;
  readonly person?: number;
  readonly joint?: string;
  readonly edge?: EdgeName;
  /** In plain words, to go after "because"; searched for when it is asked. */
  readonly reason: () => string;
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

/** What measuring can be wrong by is kept away from whole, else this share of it, else not at all. */
const DEPTHS = [1, 0.5];
/** Keeping away is worth so much more cost, in diagonals of the photo that edges move. */
const WORTH = 0.1;
/** People may come into a crop that opens; the search is done again with them, this often. */
const LOOKS = 3;
/** Written crops miss conditions by up to this, in pixels, and by one step of rounding. */
const WRITTEN_SLACK = 0.5;

interface Candidate {
  readonly edges: Edges;
  readonly broken: readonly ActiveLimit[];
  readonly weight: number;
  readonly bounded: boolean;
}

/**
 * The crop nearest to the scene's that breaks nothing, or breaks least. The present crop stays when it meets what must
 * hold and no other breaks less. Undefined when what must hold contradicts itself (`reasonWithoutCrop` says how).
 */
export function nearestCrop(
  scene: Scene,
  configuration: Configuration,
  options: SearchOptions = {},
): SearchAnswer | undefined {
  return new NearestSearch(scene, configuration).answer(options);
}

/** Searches of one scene that share its limits. */
export class NearestSearch {
  private readonly scene: Scene;
  private readonly configuration: Configuration;
  private readonly active: readonly ActiveLimit[];

  constructor(scene: Scene, configuration: Configuration) {
    this.scene = scene;
    this.configuration = configuration;
    this.active = activeLimits(scene, configuration);
  }

  answer(options: SearchOptions): SearchAnswer | undefined {
    const present = this.presentCandidate(options);
    if (present?.weight === 0) return this.answerFrom(present, options);
    const found = this.bestCandidate(options);
    if (!found) return undefined;
    const isPresentAsGood = present && present.weight <= found.weight;
    return this.answerFrom(isPresentAsGood ? { ...present, bounded: found.bounded } : found, options);
  }

  /** The scene's own crop, when it meets what must hold. */
  private presentCandidate(options: SearchOptions): Candidate | undefined {
    const { crop } = this.scene;
    const mustMove = this.active.some(
      (active) => isByConstruction(active) && isHard(active) && isBroken(active.limit, crop),
    );
    if (mustMove) return undefined;
    return this.meetsConditions(this.scene, crop, options) ? this.candidateAt(crop, false, options) : undefined;
  }

  /** Whether a written crop meets what must hold when the rules see these people. */
  private meetsConditions(view: Scene, edges: Edges, options: SearchOptions): boolean {
    const { width, height } = view.photo;
    const slack = Math.max(WRITTEN_SLACK, 2 * roundingStep(width), 2 * roundingStep(height));
    return conditionsOf(view, options).every(({ halfSpace }) => excess(halfSpace, edges) <= slack);
  }

  private bestCandidate(options: SearchOptions): Candidate | undefined {
    let best: Candidate | undefined;
    let view = this.scene;
    let asked = askedOf(this.active, options);
    for (let look = 0; look < LOOKS; look++) {
      const found = this.deepestOfLeast(view, asked, options);
      if (!found) return best;
      // A crop that newly shows a face, but not the whole of it, does not stay, however little it breaks.
      if (best && found.weight >= best.weight && this.meetsConditions(view, best.edges, options)) return best;
      best = found;
      const { crop, length, upright } = this.scene;
      const next = { ...withCrop(this.scene, best.edges), crop, length, upright };
      if (best.weight === 0 || isSameView(view, next)) return best;
      view = next;
      asked = askedOf(activeLimits(view, this.configuration), options);
    }
    return best;
  }

  /** Of the searches at all depths that break least, as the rules see it, the deepest. */
  private deepestOfLeast(view: Scene, asked: readonly ActiveLimit[], options: SearchOptions): Candidate | undefined {
    const { maximumNodes } = options;
    const problems = new Problems(view, asked, options);
    const candidate = ({ edges, bounded }: Solution) => this.candidateAt(edges, bounded, options);

    // What breaks, and costs, without keeping deeper is the least that can.
    const shallowest = solve(problems.at(0), { maximumNodes });
    if (!shallowest) return undefined;
    const shallow = candidate(shallowest);
    const before = { weight: shallowest.weight, cost: shallowest.cost + WORTH };
    for (const depth of DEPTHS) {
      const deeper = solve(problems.at(depth), { maximumNodes, before });
      const deep = deeper && candidate(deeper);
      if (deep && deep.weight <= shallow.weight) return deep;
    }
    return shallow;
  }

  /** A crop as it is written, with what it breaks when the rules look at it. */
  private candidateAt(edges: Edges, bounded: boolean, options: SearchOptions): Candidate {
    const at = written(this.scene, edges).edges;
    const seen = withCrop(this.scene, at);
    const active = isSameView(this.scene, seen) ? this.active : activeLimits(seen, this.configuration);
    const broken = askedOf(
      active.filter((limit) => isHard(limit) && isBroken(limit.limit, at)),
      options,
    );
    return { edges: at, broken, weight: broken.reduce((sum, limit) => sum + weightOf(limit, options), 0), bounded };
  }

  private answerFrom(candidate: Candidate, options: SearchOptions): SearchAnswer {
    const hints = askedOf(this.active, options).filter((active) => !isHard(active));
    const problem = problemFrom(this.scene, hints, options, 0);
    const { crop, edges } = written(this.scene, candidate.edges);
    const whole = (): Problem => problemFrom(this.scene, askedOf(this.active, options), options, 0);
    const broken = candidate.broken.map((active) => brokenOf(problem, active, edges, whole));
    return { crop, edges, cost: costOf(problem, edges), broken, bounded: candidate.bounded };
  }
}

/** Whether the rules see the same people in both, and so the same limits. */
function isSameView(a: Scene, b: Scene): boolean {
  return a.tallest === b.tallest && a.facing.length === b.facing.length;
}

/** Edge lines as a manifest would have them: rounded, and on the photo's own edge when next to it. */
function written(scene: Scene, edges: Edges): { crop: Rectangle; edges: Edges } {
  const crop = roundCrop(rectangleOf(edges, scene.photo));
  return { crop, edges: effectiveEdges(crop, scene.photo, scene.degrees) };
}

function brokenOf(problem: Problem, active: ActiveLimit, edges: Edges, whole: () => Problem): Broken {
  const { person, joint, edge } = active.limit;
  return {
    rule: active.rule.id,
    ...(person !== undefined && { person }),
    ...(joint !== undefined && { joint }),
    ...(edge !== undefined && { edge }),
    reason: () => reasonFor(problem, active, edges, whole),
  };
}
