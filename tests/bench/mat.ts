import { MatBench } from '../editor/host/mat.ts';
import type { EditorHost } from '../editor/host/prepare.ts';
import { middleOf } from '../editor/host/workbench.ts';
import type { Latency } from '../editor/suite/latency.ts';

const STEPS = 150;

/** What a drag on the cutting mat costs, timed inside the webview of a real workbench. */
export async function matLatencies(host: EditorHost): Promise<Latency[]> {
  const bench = await MatBench.open(host, 'boardwalk-09.jpg');
  try {
    const plain = await dragSteps(bench);
    await bench.mat.getByLabel('Body map').check();
    const withMap = await dragSteps(bench);
    return [
      { what: 'a step of a drag on the mat, three people: findings, drawing, layout', ...plain },
      { what: 'the same with the body map', ...withMap },
    ];
  } finally {
    await bench.workbench.close();
  }
}

/** Drags a corner about, and times what each of the screen's pictures costs, layout included. */
async function dragSteps({ mat, page }: MatBench): Promise<Pick<Latency, 'milliseconds' | 'runs'>> {
  await mat.evaluate(`(() => {
    const isInstalled = window.steps !== undefined;
    window.steps = [];
    if (isInstalled) return;
    let moving = 0, began = 0;
    addEventListener('pointermove', () => { began = performance.now(); }, { capture: true });
    addEventListener('pointermove', () => { moving += performance.now() - began; });
    const real = requestAnimationFrame.bind(window);
    window.requestAnimationFrame = (paint) => real((time) => {
      const start = performance.now();
      paint(time);
      void document.body.offsetHeight;
      window.steps.push(performance.now() - start + moving);
      moving = 0;
    });
  })()`);
  const [x, y] = await middleOf(mat.getByLabel('lower right corner'));
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 0; step < STEPS; step++) {
    await page.mouse.move(x - 60 + 50 * Math.sin(step / 9), y - 50 + 45 * Math.cos(step / 7));
  }
  const steps = (await mat.evaluate<number[]>('window.steps')).slice(5);
  await page.mouse.move(x, y);
  await page.mouse.up();
  steps.sort((first, second) => first - second);
  return { milliseconds: steps[Math.floor(steps.length / 2)]!, runs: steps.length };
}
