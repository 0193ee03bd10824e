import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { EditorHost } from './host/prepare.ts';
import { MatBench } from './host/mat.ts';
import { withHost } from './host/with-host.ts';
import { chooseAction } from './host/workbench.ts';

/** What each rule says in the sample session: of which frame, and words that are only in its message. */
const SAID = [
  ['tilt', 'boardwalk-13.jpg', 'The picture leans 1.04'],
  ['horizon', 'boardwalk-08.jpg', 'The horizon runs through the head'],
  ['placement', 'boardwalk-13.jpg', 'of the width, off the lines'],
  ['look-room', 'boardwalk-02.jpg', 'The subject looks to the left'],
  ['edge-object', 'boardwalk-12.jpg', 'leaves part of the face of person 1'],
  ['narrow-place', 'studio-03.jpg#2', 'on the widest part of the outline'],
  ['straighten-cost', 'boardwalk-09.jpg#2', 'Straightening by'],
] as const;

await withHost(describeRules);

/** Rules that look at lines, looks and widths, each seen in the list of problems and on the mat of a real workbench. */
function describeRules(host: EditorHost): void {
  describe('what rules say, in the list of problems and on the mat', () => {
    let bench: MatBench;
    const filter = (): Locator => bench.page.locator('.viewpane-filter input, .viewpane-filter textarea').first();
    const problem = (text: string): Locator =>
      bench.page.locator('.markers-panel-container .monaco-list-row').filter({ hasText: text }).first();

    beforeAll(async () => {
      bench = await MatBench.open(host, 'boardwalk-13.jpg');
      await bench.page.keyboard.press('Control+Shift+M');
      await filter().waitFor();
      await bench.mat.getByLabel('Widths').check();
    });
    afterAll(async () => {
      await bench.workbench.close();
    });

    it.each(SAID)('%s, of %s', async (rule, frame, words) => {
      await filter().fill(words);
      await problem(words).dblclick();
      await bench.shown(frame);
      const finding = bench.mat.locator('#findings li').filter({ hasText: words }).filter({ hasText: rule }).first();
      await finding.waitFor();
      await finding.evaluate((row) => {
        (row as { scrollIntoView: (where: object) => void }).scrollIntoView({ block: 'nearest' });
      });
      await bench.workbench.shoot(`rules-${rule}`);
    });

    it('the mat draws how wide bodies are, with narrow and wide places, and stops when it is switched off', async () => {
      await filter().fill('on the widest part');
      await problem('on the widest part').dblclick();
      await bench.shown('studio-03.jpg#2');
      await bench.mat.locator('.widths').waitFor({ state: 'attached' });
      expect(await bench.mat.locator('.width.wide').count()).toBeGreaterThan(0);
      await bench.mat.getByLabel('Widths').uncheck();
      await bench.mat.locator('.widths').waitFor({ state: 'detached' });
    });

    it('with the centre the mat draws the scene’s own line of symmetry, once the people file has one', async () => {
      await bench.show('boardwalk-02.jpg');
      await bench.mat.getByLabel('Centre and symmetry').check();
      const line = bench.mat.locator('.of-scene');
      expect(await line.count()).toBe(0);
      const people = bench.people();
      const symmetric = people
        .split('\n')
        .map((text) =>
          text.includes('"photo":"boardwalk-02.jpg"')
            ? text.replace(/,"by":/, ',"symmetry":{"x":0.47,"confidence":0.9},"by":')
            : text,
        );
      bench.write('crops.people.jsonl', symmetric.join('\n'));
      await line.waitFor({ state: 'attached' });
      await bench.workbench.shoot('rules-symmetry');
      bench.write('crops.people.jsonl', people);
      await line.waitFor({ state: 'detached' });
      await bench.mat.getByLabel('Centre and symmetry').uncheck();
    });

    it('levelling all frames that lean is told with what it cost, and leads to a frame', async () => {
      const { page } = bench;
      await filter().fill('leans 1.04');
      await chooseAction(page, problem('leans 1.04'), 'More …');
      const entries = page.locator('.quick-input-list .monaco-list-row');
      await entries.filter({ hasText: 'Level all frames that lean in this file' }).click();
      const message = page
        .locator('.notifications-toasts .notification-list-item')
        .filter({ hasText: '2 frames came down a length: boardwalk-10.jpg from full length' });
      await message.waitFor();
      await bench.workbench.shoot('rules-levelled');
      await message.getByText('Go to a Frame').click();
      const row = page.locator('.quick-input-list .monaco-list-row').filter({ hasText: 'boardwalk-10.jpg' });
      await row.waitFor();
      await bench.workbench.shoot('rules-levelled-which');
      await row.click();
      await bench.shown('boardwalk-10.jpg');
    });
  });
}
