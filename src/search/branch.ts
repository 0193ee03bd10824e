import type { HalfSpace } from '../geometry/half-space.ts';
import { excess } from '../geometry/half-space.ts';
import type { Edges } from '../geometry/shapes.ts';
import type { Box } from './box.ts';
import { canMeet, copyOf, tighten } from './box.ts';
import type { Compiled, EitherOr } from './compiled.ts';
import { compile, drawIn, opposite } from './compiled.ts';
import type { Problem } from './problem.ts';
import { missOf, TOLERANCE } from './problem.ts';
import { Programme } from './programme.ts';
import { Queue } from './queue.ts';
import type { Tableau } from './tableau.ts';

export const MAXIMUM_NODES = 4000;

export interface Solution {
  /** In pixels of the turned picture, not rounded. */
  readonly edges: Edges;
  readonly weight: number;
  readonly cost: number;
  readonly nodes: number;
  /** The node limit was hit: there may be a better crop. */
  readonly bounded: boolean;
}

export interface SolveOptions {
  /** Nodes after which the search stops with the best crop so far. Absent: `MAXIMUM_NODES`. */
  readonly maximumNodes?: number | undefined;
  /** Only crops that rank before this are of interest: that break less, or as much at less cost. */
  readonly before?: Rank;
}

/** Part of the crops in reach: those that meet what was decided. Weight and cost (times the diagonal) are no more than any crop's in it. */
interface Node {
  tableau: Tableau;
  /** Not yet in the tableau. */
  readonly row: HalfSpace | undefined;
  readonly price: number | undefined;
  solved: boolean;
  readonly box: Box;
  /** The clauses, then wishes, that are decided: the last one, and those before it. */
  decided: Decision | undefined;
  weight: number;
  cost: number;
  readonly order: number;
}

interface Decision {
  readonly index: number;
  readonly before: Decision | undefined;
}

/** Crops are ranked by weight, then by cost. */
export interface Rank {
  readonly weight: number;
  readonly cost: number;
}

/** Weights are sums of round numbers; a smaller difference is rounding. */
const SAME_WEIGHT = 1e-6;
/** In pixels. */
const SAME_COST = 1e-9;

/**
 * The crop of least broken weight, and among those of least cost: best-first branch and bound over the either-ors, each
 * node a small linear programme. Undefined when no crop meets the conditions and breaks little enough.
 */
export function solve(problem: Problem, options: SolveOptions = {}): Solution | undefined {
  const compiled = compile(problem);
  return compiled && new Search(problem, compiled, options).run();
}

/** Where searches begin: the conditions and the wishes that a linear programme takes as they are. */
interface Root extends Pick<Problem, 'wishes' | 'present'> {
  readonly programme: Programme;
  /** Solved by the first search; those after it go on from there. */
  readonly tableau: Tableau;
}

/** Kept with the conditions in reach: the searches of one problem at several depths begin at the same place. */
const roots = new WeakMap<Compiled['conditions'], Root>();

function rootOf(problem: Problem, { conditions, convex }: Compiled): Root {
  const { wishes, present } = problem;
  const known = roots.get(conditions);
  if (known && known.wishes === wishes && known.present === present) return known;
  const programme = new Programme(problem);
  let tableau = programme.root;
  for (const row of conditions) tableau = programme.add(tableau, row);
  for (const { escapes, weight } of convex) tableau = programme.add(tableau, escapes[0]!, weight);
  const root = { wishes, present, programme, tableau };
  roots.set(conditions, root);
  return root;
}

class Search {
  private readonly problem: Problem;
  private readonly compiled: Compiled;
  private readonly root: Root;
  private readonly programme: Programme;
  private readonly queue = new Queue<Node>((a, b) => comesBefore(a, b));
  private readonly maximumNodes: number;
  private best: Rank & { readonly edges?: Edges };
  private created = 0;
  /** Per clause, which of its escapes was met last. */
  private readonly metLast: number[];

  constructor(problem: Problem, compiled: Compiled, { maximumNodes = MAXIMUM_NODES, before }: SolveOptions) {
    this.maximumNodes = maximumNodes;
    this.best = before
      ? { weight: before.weight, cost: before.cost * problem.diagonal }
      : { weight: Infinity, cost: Infinity };
    this.problem = problem;
    this.compiled = compiled;
    this.root = rootOf(problem, compiled);
    this.programme = this.root.programme;
    this.metLast = compiled.clauses.map(() => 0);
  }

  run(): Solution | undefined {
    this.queue.push(this.rootNode());
    let nodes = 0;
    let bounded = false;
    for (let node = this.queue.pop(); node && this.mayImprove(node); node = this.queue.pop()) {
      if (nodes >= this.maximumNodes && this.best.edges) {
        bounded = true;
        break;
      }
      nodes++;
      if (this.settle(node)) this.expand(node);
    }
    const { edges, weight, cost } = this.best;
    return edges && { edges, weight, cost: cost / this.problem.diagonal, nodes, bounded };
  }

  private rootNode(): Node {
    const { box, lost } = this.compiled;
    return {
      tableau: this.root.tableau,
      row: undefined,
      price: undefined,
      solved: false,
      box,
      decided: undefined,
      weight: lost,
      cost: 0,
      order: this.created++,
    };
  }

  private mayImprove(rank: Rank): boolean {
    const { best } = this;
    if (rank.weight < best.weight - SAME_WEIGHT) return true;
    return rank.weight <= best.weight + SAME_WEIGHT && rank.cost < best.cost - SAME_COST;
  }

  /** Solves the node's linear programme; false when it has no crop, no better one, or others must come first. */
  private settle(node: Node): boolean {
    if (node.solved) return true;
    if (node.row) node.tableau = this.programme.add(node.tableau, node.row, node.price);
    const { best } = this;
    const most = node.weight >= best.weight - SAME_WEIGHT ? best.cost : Infinity;
    if (node.tableau.solve(most) !== 'optimal') return false;
    node.solved = true;
    node.cost = node.tableau.cost;
    return this.isNext(node);
  }

  /** Whether no other node is more promising; puts the node back when one is. */
  private isNext(node: Node): boolean {
    if (!this.mayImprove(node)) return false;
    const { first } = this.queue;
    if (!first || !comesBefore(first, node)) return true;
    this.queue.push(node);
    return false;
  }

  private expand(node: Node): void {
    const { clauses, wishes, lost } = this.compiled;
    const edges = this.programme.edgesAt(node.tableau);
    let weight = lost;
    let missedWishes = 0;
    const broken: number[] = [];
    for (let index = 0; index < clauses.length; index++) {
      if (this.isMet(index, edges)) continue;
      weight += clauses[index]!.weight;
      if (!isDecided(node, index)) broken.push(index);
    }
    let worstWish = -1;
    let worstMiss = 0;
    wishes.forEach((wish, index) => {
      const miss = wish.weight * missOf(wish.escapes, edges);
      if (miss === 0 || isDecided(node, clauses.length + index)) return;
      missedWishes += miss;
      if (miss > worstMiss) {
        worstMiss = miss;
        worstWish = index;
      }
    });
    const rank = { weight, cost: node.cost + missedWishes };
    if (this.mayImprove(rank)) this.best = { ...rank, edges };
    if (broken.length > 0) this.branchOnClause(node, broken, edges);
    else if (worstWish >= 0 && this.mayImprove(node)) this.branchOnWish(node, worstWish);
  }

  /** Tries the escape first that was met last: neighbouring crops mostly meet the same. */
  private isMet(index: number, edges: Edges): boolean {
    const { escapes } = this.compiled.clauses[index]!;
    const last = this.metLast[index]!;
    if (excess(escapes[last]!, edges) <= TOLERANCE) return true;
    for (let at = 0; at < escapes.length; at++) {
      if (excess(escapes[at]!, edges) > TOLERANCE) continue;
      this.metLast[index] = at;
      return true;
    }
    return false;
  }

  private branchOnClause(node: Node, broken: readonly number[], edges: Edges): void {
    const { clauses } = this.compiled;
    const before = node.weight;
    let chosen = -1;
    let most = 0;
    for (const index of broken) {
      const clause = clauses[index]!;
      let ways = 0;
      let miss = Infinity;
      for (const escape of clause.escapes) {
        if (!canMeet(node.box, escape)) continue;
        ways++;
        miss = Math.min(miss, excess(escape, edges));
      }
      if (ways === 0) {
        node.decided = { index, before: node.decided };
        node.weight += clause.weight;
        continue;
      }
      // Far misses raise the cost most, and few ways out make few children.
      const promise = miss / ways;
      if (promise <= most) continue;
      chosen = index;
      most = promise;
    }
    if (node.weight > before) {
      if (this.isNext(node)) this.expand(node);
    } else this.split(node, chosen, clauses[chosen]!);
  }

  private split(node: Node, index: number, clause: EitherOr): void {
    const box = copyOf(node.box);
    const decided = { index, before: node.decided };
    let open = true;
    for (const escape of clause.escapes) {
      if (!open) return;
      this.pushChild(node, box, decided, escape, undefined);
      // Crops that meet this escape are in its child; the children after it need not hold them.
      open = tighten(box, opposite(escape));
    }
    if (!open) return;
    this.queue.push({
      ...node,
      row: undefined,
      box,
      decided,
      weight: node.weight + clause.weight,
      order: this.created++,
    });
  }

  private branchOnWish(node: Node, index: number): void {
    const { clauses, wishes } = this.compiled;
    const wish = wishes[index]!;
    const decided = { index: clauses.length + index, before: node.decided };
    for (const escape of wish.escapes) this.pushChild(node, node.box, decided, escape, wish.weight);
  }

  private pushChild(node: Node, from: Box, decided: Decision, row: HalfSpace, price: number | undefined): void {
    const { conditions, shape } = this.compiled;
    let box = from;
    if (price === undefined) {
      box = copyOf(from);
      if (!tighten(box, row) || !drawIn(box, conditions, shape) || !drawIn(box, [], shape)) return;
    }
    const { tableau, weight, cost } = node;
    const order = this.created++;
    this.queue.push({ tableau, row, price, solved: false, box, decided, weight, cost, order });
  }
}

function isDecided({ decided }: Node, index: number): boolean {
  for (let decision = decided; decision; decision = decision.before) if (decision.index === index) return true;
  return false;
}

function comesBefore(a: Rank & { order: number }, b: Rank & { order: number }): boolean {
  if (Math.abs(a.weight - b.weight) > SAME_WEIGHT) return a.weight < b.weight;
  return a.cost !== b.cost ? a.cost < b.cost : a.order < b.order;
}
