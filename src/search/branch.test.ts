import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { insidePhoto } from '../geometry/crop.ts';
import type { HalfSpace } from '../geometry/half-space.ts';
import { atLeast, atMost } from '../geometry/half-space.ts';
import type { Edges } from '../geometry/shapes.ts';
import { EDGE_NAMES } from '../geometry/shapes.ts';
import { solve } from './branch.ts';
import type { Condition } from './conditions.ts';
import type { Clause, Problem } from './problem.ts';
import { brokenWeight, costOf, meetsConditions } from './problem.ts';

const SIDE = 16;
const photo = { width: SIDE, height: SIDE };
const conditions: Condition[] = [
  ...insidePhoto(photo, 0).map((halfSpace) => ({ halfSpace, ground: 'photo' as const })),
  { halfSpace: { left: 1, top: 0, right: -1, bottom: 0, atMost: -2 }, ground: 'size' },
  { halfSpace: { left: 0, top: 1, right: 0, bottom: -1, atMost: -2 }, ground: 'size' },
];

function problem(parts: Partial<Problem>): Problem {
  const present = { left: 2, top: 2, right: 12, bottom: 12 };
  return { photo, diagonal: SIDE, present, shape: undefined, conditions, clauses: [], wishes: [], ...parts };
}

const escape: fc.Arbitrary<HalfSpace> = fc
  .tuple(fc.constantFrom(...EDGE_NAMES), fc.integer({ min: -1, max: SIDE + 1 }), fc.boolean())
  .map(([edge, value, before]) => (before ? atMost(edge, value) : atLeast(edge, value)));
const eitherOr = fc.record({
  escapes: fc.array(escape, { minLength: 1, maxLength: 4 }),
  weight: fc.constantFrom(1, 10, 1000),
});
const randomProblem = fc
  .record({ clauses: fc.array(eitherOr, { maxLength: 7 }), wishes: fc.array(eitherOr, { maxLength: 3 }) })
  .map(({ clauses, wishes }) => problem({ clauses, wishes: wishes.map((wish) => ({ ...wish, weight: 1.5 })) }));

/** All crops on whole pixels: with one-edge escapes at whole pixels, one of them is as good as any. */
function* wholePixelCrops(): Iterable<Edges> {
  for (let left = 0; left <= SIDE; left++)
    for (let right = left + 2; right <= SIDE; right++)
      for (let top = 0; top <= SIDE; top++)
        for (let bottom = top + 2; bottom <= SIDE; bottom++) yield { left, top, right, bottom };
}

describe('branch and bound', () => {
  test('is as good as going through all crops', () => {
    fc.assert(
      fc.property(randomProblem, (random) => {
        const solution = solve(random)!;
        let weight = Infinity;
        let cost = Infinity;
        for (const edges of wholePixelCrops()) {
          const broken = brokenWeight(random, edges);
          if (broken > weight) continue;
          const costs = costOf(random, edges);
          if (broken === weight && costs >= cost) continue;
          weight = broken;
          cost = costs;
        }
        expect(solution.bounded).toBe(false);
        expect(solution.weight).toBeCloseTo(weight, 6);
        expect(solution.cost).toBeCloseTo(cost, 6);
        expect(meetsConditions(random, solution.edges)).toBe(true);
        expect(brokenWeight(random, solution.edges)).toBeCloseTo(solution.weight, 6);
        expect(costOf(random, solution.edges)).toBeCloseTo(solution.cost, 6);
      }),
      { numRuns: 60 },
    );
  });

  test('keeps a fixed shape exactly', () => {
    const clauses: Clause[] = [{ escapes: [atMost('bottom', 9)], weight: 1 }];
    const { edges } = solve(problem({ shape: 1, clauses }))!;
    expect(edges.bottom).toBeCloseTo(9);
    expect(edges.right - edges.left).toBeCloseTo(edges.bottom - edges.top);
  });

  test('gives up the lighter of two clauses that exclude each other', () => {
    const clauses: Clause[] = [
      { escapes: [atMost('left', 1)], weight: 1 },
      { escapes: [atLeast('left', 5)], weight: 2 },
    ];
    const solution = solve(problem({ clauses }))!;
    expect(solution.weight).toBe(1);
    expect(solution.edges.left).toBeCloseTo(5);
  });

  test('stays where it is when nothing is broken', () => {
    expect(solve(problem({}))!.edges).toEqual({ left: 2, top: 2, right: 12, bottom: 12 });
  });

  test('has no answer when the conditions contradict each other', () => {
    const contradiction: Condition[] = [...conditions, { halfSpace: atLeast('left', SIDE), ground: 'face' }];
    expect(solve(problem({ conditions: contradiction }))).toBeUndefined();
  });

  test('says so when it is stopped', () => {
    const clauses: Clause[] = [{ escapes: [atMost('left', 0), atLeast('left', 4)], weight: 1 }];
    expect(solve(problem({ clauses }), { maximumNodes: 1 })!.bounded).toBe(true);
    expect(solve(problem({ clauses }))!.bounded).toBe(false);
  });
});
