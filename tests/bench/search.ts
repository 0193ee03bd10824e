import { configure } from '../../src/rules/configuration.ts';
import type { Scene } from '../../src/rules/scene.ts';
import { sceneOf } from '../../src/rules/scene.ts';
import { solve } from '../../src/search/branch.ts';
import { ladder, nearestCrop } from '../../src/search/index.ts';
import { problemOf } from '../../src/search/problem.ts';
import { generatedScene } from '../scenes/generate.ts';
import { gridSearch } from '../search-truth/grid-search.ts';

const SCENES = 120;
const GRID_SCENES = 20;
const REPEATS = 5;
const CONFIGURATION = configure();

/** Times the search on generated scenes of one to four people; a Markdown section. */
export function run(): Promise<string> {
  const scenes = Array.from({ length: SCENES }, (_, seed) => sceneOf(generatedScene(seed)));
  for (const scene of scenes) nearestCrop(scene, CONFIGURATION);

  const nearest = scenes.map((scene) => least(() => nearestCrop(scene, CONFIGURATION)));
  const rungs = scenes.map((scene) => least(() => ladder(scene, CONFIGURATION)));
  const nodes = scenes.map((scene) => solve(problemOf(scene, CONFIGURATION, {}, 1))?.nodes ?? 0);
  const single = scenes.filter(({ people }) => people.length === 1);
  const nearestSingle = single.map((scene) => least(() => nearestCrop(scene, CONFIGURATION)));
  const ratios = scenes.slice(0, GRID_SCENES).map(ratioToGrid);

  return Promise.resolve(
    [
      '## Search',
      '',
      `${SCENES} generated scenes with one to four people, half of them hard (bodies outside the photo, overlapping);`,
      `each time the least of ${REPEATS} runs.`,
      '',
      '| | median | 90 % | goal |',
      '| --- | --- | --- | --- |',
      `| nearest crop | ${milliseconds(at(nearest, 0.5))} | ${milliseconds(at(nearest, 0.9))} | median under 2 ms |`,
      `| nearest crop, one person | ${milliseconds(at(nearestSingle, 0.5))} | ${milliseconds(at(nearestSingle, 0.9))} | – |`,
      `| ladder | ${milliseconds(at(rungs, 0.5))} | ${milliseconds(at(rungs, 0.9))} | under 10 ms |`,
      `| nodes of one search | ${at(nodes, 0.5)} | ${at(nodes, 0.9)} | – |`,
      `| grid search over the same problem takes longer by | ${at(ratios, 0.5).toFixed(0)} × | ${at(ratios, 0.1).toFixed(0)} × (10 %) | 100 × |`,
      '',
    ].join('\n'),
  );
}

function ratioToGrid(scene: Scene): number {
  const problem = problemOf(scene, CONFIGURATION, {}, 0);
  const ours = least(() => solve(problem));
  const start = performance.now();
  gridSearch(problem, problem.shape === undefined ? 4 : 6);
  return (performance.now() - start) / ours;
}

/** The least time of some runs, in milliseconds: what the machine's other work does not lengthen. */
function least(work: () => unknown): number {
  let best = Infinity;
  for (let repeat = 0; repeat < REPEATS; repeat++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

function at(values: readonly number[], share: number): number {
  return [...values].sort((a, b) => a - b)[Math.floor(share * (values.length - 1))]!;
}

function milliseconds(value: number): string {
  return `${value.toFixed(2)} ms`;
}
