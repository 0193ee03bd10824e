import type { HalfSpace } from '../geometry/half-space.ts';
import { excess } from '../geometry/half-space.ts';
import { shapeWords } from '../geometry/shape-words.ts';
import type { EdgeName, Edges } from '../geometry/shapes.ts';
import { EDGE_NAMES } from '../geometry/shapes.ts';
import { isVertical, valueOf } from '../rules/limits.ts';
import { identityOfLimit, type ActiveLimit } from '../rules/active-limit.ts';
import { listed, partWords } from '../rules/words.ts';
import { solve } from './branch.ts';
import type { Ground } from './conditions.ts';
import { ownEdge } from './guard.ts';
import { missOf, TOLERANCE, type Problem } from './problem.ts';

/** In which order what stands in the way is named: first what no search could change. */
const GROUNDS: readonly Ground[] = ['photo', 'shape', 'face', 'size', 'length', 'direction'];
const PLACE_OF_RULE: Readonly<Record<string, string>> = {
  'face-cut': 'face',
  headroom: 'head',
  'edge-clearance': 'body',
  'edge-along-body': 'body',
};
/** Rules whose measure tells how far the edge lies from the very place they speak about. */
const MEASURES_PLACE: ReadonlySet<string> = new Set(['joint-cut', 'headroom', 'edge-clearance']);

/** So many of the nearest ways out are spoken of. */
const WAYS = 2;

/**
 * Why no crop meets a limit, from the ways out nearest to these edges, in words that end a sentence: "the photo ends
 * 14 px under the left ankle of person 1, and the faces of persons 1 and 3 need the height".
 * @param whole the same search with all that it was asked; what the way out would break is named from it
 */
export function reasonFor(problem: Problem, active: ActiveLimit, edges: Edges, whole: () => Problem): string {
  // Too much room over a head is mended by the top edge alone; that a much larger photo would do as well says nothing.
  const ways = active.limit.message === 'most' ? active.limit.escapes.slice(0, 1) : active.limit.escapes;
  const nearest = [...ways].sort((a, b) => excess(a, edges) - excess(b, edges)).slice(0, WAYS);
  const grounds = nearest.map((escape) => groundOf(problem, escape));
  const told = GROUNDS.filter((ground) => grounds.includes(ground));
  const words = told.map((ground) => wordsFor(ground, problem, active));
  return words.length > 0 ? words.join(', and ') : priceWords(whole(), active, ways);
}

/** More than all other limits together. */
const AT_ANY_PRICE = 1e12;

/** What the least broken crop breaks that meets the limit: "the best crop of that length breaks headroom (person 2)". */
function priceWords(problem: Problem, active: ActiveLimit, ways: readonly HalfSpace[]): string {
  const own = identityOfLimit(active);
  const must = { escapes: ways, weight: AT_ANY_PRICE };
  const clauses = problem.clauses.filter(({ source }) => source?.limit !== active.limit);
  const solution = solve({ ...problem, clauses: [...clauses, must], wishes: [] });
  const broken = clauses.flatMap(({ source, escapes }) =>
    source && solution && missOf(escapes, solution.edges) > TOLERANCE && identityOfLimit(source) !== own
      ? [source]
      : [],
  );
  const names = new Set(
    broken.map(({ rule, limit: { person } }) => (person === undefined ? rule.id : `${rule.id} (person ${person})`)),
  );
  return names.size === 0
    ? `no crop ${targetWords(active)} breaks less in all`
    : `the best crop ${targetWords(active)} breaks ${listed([...names])}`;
}

/** "of that length", "clear of the left knee of person 1". */
function targetWords(active: ActiveLimit): string {
  if (active.rule.id === 'length') return 'of that length';
  if (active.rule.id === 'headroom' && active.limit.message === 'most')
    return `with less room over ${placeWords(active)}`;
  return `clear of ${placeWords(active)}`;
}

function wordsFor(ground: Ground, problem: Problem, active: ActiveLimit): string {
  const place = placeWords(active);
  const target = targetWords(active);
  switch (ground) {
    case 'photo':
      return active.rule.id === 'length' ? 'the photo ends before that length' : photoWords(problem, active, place);
    case 'shape':
      return `${problem.shape === undefined ? 'a crop' : `a ${shapeWords(problem.shape, 1)} crop`} inside the photo cannot be ${target}`;
    case 'face':
      return `${faceWords(problem)} the ${sideWords(active.limit.edge)}`;
    case 'size':
      return `a crop ${target} would be too small: under ${leastSide(problem)} px at its short side`;
    case 'length':
      return `a crop ${target} has to come closer than is done unasked`;
    case 'direction':
      return `a crop ${target} lies the other way`;
  }
}

/** What a crop's short side must have, in pixels. */
function leastSide({ conditions }: Problem): number {
  return Math.round(
    Math.max(0, ...conditions.flatMap(({ ground, halfSpace }) => (ground === 'size' ? -halfSpace.atMost : []))),
  );
}

/** Why no crop at all can be searched for; undefined when one can. */
export function whyNoCrop(problem: Problem): string | undefined {
  const ground = GROUNDS.find((_, index) => !isPossible(problem, GROUNDS.slice(0, index + 1)));
  switch (ground) {
    case undefined:
      return undefined;
    case 'photo':
    case 'shape':
      return 'no crop of that shape fits the photo';
    case 'face':
      return 'no crop of that shape holds every face';
    case 'size':
      return `every crop of that shape with every face in it is too small: under ${leastSide(problem)} px at its short side`;
    case 'length':
      return 'in that shape, the picture has to come closer than is done unasked';
    case 'direction':
      return 'no crop lies that way';
  }
}

/** The first ground that, with those before it, rules the way out out. */
function groundOf(problem: Problem, halfSpace: HalfSpace): Ground | undefined {
  const asked = { ...problem, conditions: [...problem.conditions, { halfSpace, ground: 'photo' as const }] };
  if (isPossible(asked, GROUNDS)) return undefined;
  return GROUNDS.find((_, index) => !isPossible(asked, GROUNDS.slice(0, index + 1)));
}

function isPossible(problem: Problem, grounds: readonly Ground[]): boolean {
  const conditions = problem.conditions.filter(({ ground }) => grounds.includes(ground));
  const shape = grounds.includes('shape') ? problem.shape : undefined;
  return solve({ ...problem, shape, conditions, clauses: [], wishes: [] }) !== undefined;
}

function photoWords(problem: Problem, active: ActiveLimit, place: string): string {
  const { limit, rule } = active;
  const { edge, measure } = limit;
  if (!edge) return `the photo has no room for ${place}`;
  const whole: Edges = { left: 0, top: 0, right: problem.photo.width, bottom: problem.photo.height };
  if (measure && MEASURES_PLACE.has(rule.id)) {
    const sign = rule.id === 'joint-cut' && (edge === 'left' || edge === 'top') ? -1 : 1;
    const room = sign * valueOf(measure.of, whole);
    const [beyond, before] = directionWords(edge);
    return `the photo ends ${pixelWords(room)} ${room >= 0 ? beyond : before} ${place}`;
  }
  const short = limit.escapes
    .filter((escape) => EDGE_NAMES.every((name) => (escape[name] !== 0) === (name === edge)))
    .map((escape) => excess(escape, { ...whole, [edge]: ownEdge(edge, problem.photo) }))
    .filter((miss) => miss > 0);
  return short.length > 0
    ? `the photo ends ${pixelWords(Math.min(...short))} too early at ${place}`
    : `the photo ends at ${place}`;
}

function directionWords(edge: EdgeName): readonly [string, string] {
  switch (edge) {
    case 'left':
      return ['left of', 'right of'];
    case 'top':
      return ['over', 'under'];
    case 'right':
      return ['right of', 'left of'];
    case 'bottom':
      return ['under', 'above'];
  }
}

function pixelWords(value: number): string {
  return `${Math.round(Math.abs(value))} px`;
}

function placeWords({ rule, limit }: ActiveLimit): string {
  const part = limit.joint === undefined ? (PLACE_OF_RULE[rule.id] ?? 'place') : partWords(limit.joint);
  return limit.person === undefined ? `the ${part}` : `the ${part} of person ${limit.person}`;
}

/** "the face of person 2 needs", "the faces of persons 1 and 3 need". */
function faceWords(problem: Problem): string {
  const ids = [...new Set(problem.conditions.flatMap(({ person }) => person ?? []))];
  return ids.length < 2 ? `the face of person ${ids.join('')} needs` : `the faces of persons ${listed(ids)} need`;
}

function sideWords(edge: EdgeName | undefined): string {
  if (edge === undefined) return 'room';
  return isVertical(edge) ? 'width' : 'height';
}
