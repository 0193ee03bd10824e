import { describe, expect, test } from 'vitest';
import { configure } from '../../src/rules/configuration.ts';
import { sceneOf } from '../../src/rules/scene.ts';
import { solve } from '../../src/search/branch.ts';
import { brokenWeight, costOf, meetsConditions, problemOf } from '../../src/search/problem.ts';
import { generatedScene } from '../scenes/generate.ts';
import { gridSearch } from './grid-search.ts';

const SCENES = 520;
const CONFIGURATION = configure();
/** Weights are sums of round numbers; costs are fractions of the diagonal. */
const SAME = 1e-6;

// Source of truth: a search over a grid that knows the cost and the limits, and nothing of the solver.
describe('the search against a fine grid', () => {
  for (const depth of [0, 1]) {
    test(`never a worse cost, never a broken rule that the grid avoids (depth ${depth})`, { timeout: 600_000 }, () => {
      let found = 0;
      let bounded = 0;
      const worse: string[] = [];
      for (let seed = depth; seed < SCENES; seed += 2) {
        const problem = problemOf(sceneOf(generatedScene(seed)), CONFIGURATION, {}, depth);
        const solution = solve(problem);
        const grid = gridSearch(problem, problem.shape === undefined ? 4 : 6);
        if (!solution) {
          if (grid) worse.push(`seed ${seed}: the grid has a crop, the search none`);
          continue;
        }
        found++;
        if (solution.bounded) bounded++;
        expect(meetsConditions(problem, solution.edges), `seed ${seed} meets its conditions`).toBe(true);
        expect(brokenWeight(problem, solution.edges), `seed ${seed} weight`).toBeCloseTo(solution.weight, 6);
        expect(costOf(problem, solution.edges), `seed ${seed} cost`).toBeCloseTo(solution.cost, 7);
        if (!grid) continue;
        const heavier = solution.weight > grid.weight + SAME;
        const dearer = solution.weight >= grid.weight - SAME && solution.cost > grid.cost + SAME;
        if (heavier || dearer) {
          worse.push(`seed ${seed}: ${solution.weight} ${solution.cost}, grid ${grid.weight} ${grid.cost}`);
        }
      }
      expect(worse).toEqual([]);
      expect(bounded).toBe(0);
      expect(found).toBeGreaterThan(200);
    });
  }
});
