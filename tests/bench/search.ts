import { largestCentred } from '../../src/geometry/crop.ts';
import { configure } from '../../src/rules/configuration.ts';
import type { Scene, SceneInput } from '../../src/rules/scene.ts';
import { sceneOf } from '../../src/rules/scene.ts';
import { solve } from '../../src/search/branch.ts';
import { ladder, nearestCrop } from '../../src/search/index.ts';
import { problemOf } from '../../src/search/problem.ts';
import { generatedScene } from '../scenes/generate.ts';
import { hasDemoPhotos, hasLabelledPhotos } from '../truth/shared.ts';
import { cocoPeople, demoPeople } from '../truth/support/labelled-people.ts';
import { gridSearch } from '../search-truth/grid-search.ts';

const SCENES = 120;
const GRID_SCENES = 20;
const REPEATS = 5;
const CONFIGURATION = configure();

/** Times the search on generated scenes of one to four people; a Markdown section. */
export function run(): Promise<string> {
  const inputs = Array.from({ length: SCENES }, (_, seed) => generatedScene(seed));
  for (const input of inputs) nearestCrop(sceneOf(input), CONFIGURATION);

  const nearest = inputs.map((input) => least(input, (scene) => nearestCrop(scene, CONFIGURATION)));
  const rungs = inputs.map((input) => least(input, (scene) => ladder(scene, CONFIGURATION)));
  const photographs = labelledInputs().map((input) => least(input, (scene) => nearestCrop(scene, CONFIGURATION)));
  const nodes = inputs.map((input) => solve(problemOf(sceneOf(input), CONFIGURATION, {}, 1))?.nodes ?? 0);
  const single = nearest.filter((_, index) => inputs[index]!.people.length === 1);
  const moved = inputs.map((input) => {
    const scene = sceneOf(input);
    nearestCrop(scene, CONFIGURATION);
    return least(input, () => nearestCrop(scene, CONFIGURATION));
  });
  const ratios = inputs.slice(0, GRID_SCENES).map((input) => ratioToGrid(sceneOf(input)));

  return Promise.resolve(
    [
      '## Search',
      '',
      `${SCENES} generated scenes with one to four people, half of them hard (bodies outside the photo, overlapping);`,
      `each time the least of ${REPEATS} runs, each on a frame that nobody has looked at yet.`,
      '',
      '| | median | 90 % | goal |',
      '| --- | --- | --- | --- |',
      `| nearest crop | ${milliseconds(at(nearest, 0.5))} | ${milliseconds(at(nearest, 0.9))} | median under 2 ms |`,
      `| nearest crop, one person | ${milliseconds(at(single, 0.5))} | ${milliseconds(at(single, 0.9))} | – |`,
      photographs.length === 0
        ? '| nearest crop, labelled photographs | they are not here | – | – |'
        : `| nearest crop, labelled photographs in five shapes | ${milliseconds(at(photographs, 0.5))} | ${milliseconds(at(photographs, 0.9))} | median under 2 ms |`,
      `| nearest crop of a frame that was looked at before | ${milliseconds(at(moved, 0.5))} | ${milliseconds(at(moved, 0.9))} | – |`,
      `| ladder | ${milliseconds(at(rungs, 0.5))} | ${milliseconds(at(rungs, 0.9))} | under 10 ms |`,
      `| nodes of one search | ${at(nodes, 0.5)} | ${at(nodes, 0.9)} | – |`,
      `| grid search over the same problem takes longer by | ${at(ratios, 0.5).toFixed(0)} × | ${at(ratios, 0.1).toFixed(0)} × (10 %) | 100 × |`,
      '',
    ].join('\n'),
  );
}

/** The widest centred crops of the labelled and the rendered photographs. */
function labelledInputs(): SceneInput[] {
  const photos = [...(hasLabelledPhotos ? cocoPeople() : []), ...(hasDemoPhotos ? demoPeople() : [])];
  return photos.flatMap(({ size, people }) =>
    [2 / 3, 4 / 5, 1, 3 / 2, 16 / 9].map((shape): SceneInput => ({
      photo: size,
      degrees: 0,
      crop: largestCentred(size, 0, shape),
      shape,
      composition: 'thirds',
      askedLength: undefined,
      people,
      subjects: undefined,
    })),
  );
}

function ratioToGrid(scene: Scene): number {
  const problem = problemOf(scene, CONFIGURATION, {}, 0);
  const ours = least(scene, () => solve(problem));
  const start = performance.now();
  gridSearch(problem, problem.shape === undefined ? 4 : 6);
  return (performance.now() - start) / ours;
}

/** The least time of some runs, in milliseconds: what the machine's other work does not lengthen. */
function least(input: SceneInput, work: (scene: Scene) => unknown): number {
  let best = Infinity;
  for (let repeat = 0; repeat < REPEATS; repeat++) {
    const scene = sceneOf(input);
    const start = performance.now();
    work(scene);
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
