import type { HalfSpace } from '../geometry/half-space.ts';
import type { Box } from './box.ts';
import { alwaysMeets, canMeet, tighten, wideBox } from './box.ts';
import type { Problem } from './problem.ts';

/** An either-or; `weight` is what breaking a clause costs, or what a pixel's miss of a wish does. */
export interface EitherOr {
  readonly escapes: readonly HalfSpace[];
  readonly weight: number;
}

/** Where the crops are that meet a problem's conditions. Searches share it: they draw in copies of the box. */
export interface Reach {
  readonly box: Box;
  /** Conditions, the tightest of each direction. */
  readonly conditions: readonly HalfSpace[];
  /** The fixed shape as two conditions, for drawing boxes in. */
  readonly shape: readonly HalfSpace[];
}

/** A problem without what every crop in reach meets, and what none can. */
export interface Compiled extends Reach {
  readonly clauses: readonly EitherOr[];
  /** Wishes with one escape: a linear programme takes them as they are. */
  readonly convex: readonly EitherOr[];
  readonly wishes: readonly EitherOr[];
  /** Weight of the clauses that no crop in reach meets. */
  readonly lost: number;
}

/** A crop of a turned picture may reach outside the oriented photo, but never so many diagonals. */
const FAR = 4;
const ROUNDS = 6;

/** Undefined when the conditions contradict each other. */
export function compile(problem: Problem): Compiled | undefined {
  const reach = reachOf(problem);
  if (!reach) return undefined;
  const { box, conditions, shape } = reach;
  const isOpen = ({ escapes }: EitherOr) => !escapes.some((escape) => alwaysMeets(box, escape));
  let lost = 0;
  const clauses: EitherOr[] = [];
  for (const clause of problem.clauses) {
    if (!isOpen(clause)) continue;
    const reachable = clause.escapes.filter((escape) => canMeet(box, escape));
    if (reachable.length > 0) clauses.push({ escapes: reachable, weight: clause.weight });
    else lost += clause.weight;
  }
  const wishes = problem.wishes.filter((wish) => wish.escapes.length > 0 && isOpen(wish));
  return {
    box,
    conditions,
    shape,
    clauses,
    convex: wishes.filter(({ escapes }) => escapes.length === 1),
    wishes: wishes.filter(({ escapes }) => escapes.length > 1),
    lost,
  };
}

type Bounds = Pick<Problem, 'conditions' | 'shape' | 'diagonal'>;

/** Kept with the conditions, which the problems of one search have in common. */
const known = new WeakMap<Problem['conditions'], { readonly bounds: Bounds; readonly reach: Reach | undefined }>();

/** Undefined when the conditions contradict each other. Of the same conditions the same object. */
export function reachOf({ conditions, shape, diagonal }: Bounds): Reach | undefined {
  const last = known.get(conditions);
  if (last && last.bounds.shape === shape && last.bounds.diagonal === diagonal) return last.reach;
  const reach = reachFrom({ conditions, shape, diagonal });
  known.set(conditions, { bounds: { conditions, shape, diagonal }, reach });
  return reach;
}

function reachFrom({ conditions: all, shape: asked, diagonal }: Bounds): Reach | undefined {
  const conditions = tightest(all.map(({ halfSpace }) => halfSpace));
  const shape = shapeConditions(asked);
  const box = wideBox(FAR * diagonal);
  for (let round = 0; round < ROUNDS; round++) if (!drawIn(box, conditions, shape)) return undefined;
  return { box, conditions, shape };
}

/** Draws the box in by the conditions and the shape; false when nothing is left. */
export function drawIn(box: Box, conditions: readonly HalfSpace[], shape: readonly HalfSpace[]): boolean {
  for (const halfSpace of shape) if (!tighten(box, halfSpace)) return false;
  for (const halfSpace of conditions) if (!tighten(box, halfSpace)) return false;
  return true;
}

function shapeConditions(shape: number | undefined): HalfSpace[] {
  if (shape === undefined) return [];
  return [
    { left: -1, top: shape, right: 1, bottom: -shape, atMost: 0 },
    { left: 1, top: -shape, right: -1, bottom: shape, atMost: 0 },
  ];
}

/** Of conditions in the same direction the tightest. */
function tightest(conditions: readonly HalfSpace[]): HalfSpace[] {
  const kept: HalfSpace[] = [];
  for (const condition of conditions) {
    const index = kept.findIndex((other) => isParallel(other, condition));
    if (index < 0) kept.push(condition);
    else if (condition.atMost < kept[index]!.atMost) kept[index] = condition;
  }
  return kept;
}

function isParallel(a: HalfSpace, b: HalfSpace): boolean {
  return a.left === b.left && a.top === b.top && a.right === b.right && a.bottom === b.bottom;
}

/** The half-space that holds where the given one does not. */
export function opposite({ left, top, right, bottom, atMost }: HalfSpace): HalfSpace {
  return { left: -left, top: -top, right: -right, bottom: -bottom, atMost: -atMost };
}
