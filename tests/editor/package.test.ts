import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePackage } from '../../src/tooling/package/make.mjs';
import { PROJECT_FOLDER } from '../truth/support/project.ts';
import { focusText, goToFrame } from './host/go-to-frame.ts';
import { MatBench, WAIT } from './host/mat.ts';
import { underVersionControl } from './host/version-control.ts';
import {
  chooseAction,
  hoverOverPhoto,
  middleOf,
  openReview,
  openWorkbench,
  runCommand,
  webviewWith,
  type Workbench,
} from './host/workbench.ts';
import { withHost } from './host/with-host.ts';

/** The goal for a package with everything that one platform needs. */
const MOST_BYTES = 100e6;
const CROP_LINE = /^ {4}crop: \{ x: [\d.]+, y: [\d.]+, w: [\d.]+, h: [\d.]+ \}$/;
const NEW_PHOTO = 'straight-from-the-camera.jpg';

/** What a photographer does who has the package and a folder of photographs, and nothing else of this project. */
await withHost((host) => {
  describe('the extension from its package', () => {
    let workbench: Workbench;
    let bench: MatBench;
    const inSession = (...path: string[]): string => join(workbench.workspace, 'harbour', ...path);
    const manifest = (): string => readFileSync(inSession('crops.yaml'), 'utf8');
    const problem = (text: string) =>
      workbench.page.locator('.markers-panel-container .monaco-list-row').filter({ hasText: text }).first();

    beforeAll(async () => {
      const { path, bytes } = await makePackage(join(PROJECT_FOLDER, 'dist', 'tests', 'package'));
      expect(bytes).toBeLessThan(MOST_BYTES);
      const arrange = (workspace: string): void => {
        const session = join(workspace, 'harbour');
        copyFileSync(join(session, 'proofs', 'boardwalk-02.jpg'), join(session, 'proofs', NEW_PHOTO));
        const manifest = join(session, 'crops.yaml');
        // The first frame, so that its line stands in the part of the list that is drawn.
        const text = readFileSync(manifest, 'utf8').replace('\nframes:\n', `\nframes:\n  - photo: ${NEW_PHOTO}\n`);
        writeFileSync(manifest, text);
        underVersionControl(session);
      };
      workbench = await openWorkbench(host, 'harbour/crops.yaml', {}, { packagePath: path, arrange });
      const { page } = workbench;
      await page.locator('.monaco-editor .squiggly-warning').first().waitFor({ timeout: 60_000 });
      await page.keyboard.press('Control+Shift+M');
    });
    afterAll(async () => {
      await workbench.close();
    });

    it('finds what is wrong, and shows the picture', async () => {
      const { page } = workbench;
      await problem('face').waitFor();
      await hoverOverPhoto(page, 'boardwalk-01.jpg');
      await workbench.shoot('package-1-hover');
      await page.keyboard.press('Escape');
      await page.mouse.move(5, 5);
    });

    it('fixes a crop with its numbers alone', async () => {
      const { page } = workbench;
      const before = manifest().split('\n');
      await chooseAction(page, problem('face'), 'Nearest clean crop');
      await page.locator('.tab.active.dirty').waitFor();
      await page.keyboard.press('Control+S');
      await page.locator('.tab.active:not(.dirty)').waitFor();
      const after = manifest().split('\n');
      const changed = after.filter((line, index) => line !== before[index]);
      expect(changed).toEqual([expect.stringMatching(CROP_LINE)]);
    });

    it('fixes all frames, and one step back brings all of them back', async () => {
      const { page } = workbench;
      const before = manifest();
      await chooseAction(page, problem('The turned photo'), 'Fix all frames in this file');
      await page.locator('.tab.active.dirty').waitFor();
      await page.keyboard.press('Control+S');
      await expect.poll(manifest).not.toBe(before);
      for (const rule of ['face-cut', 'joint-cut', 'hand-cut', 'foot-cut', 'outside-photo'])
        await problem(`selvedge(${rule})`).waitFor({ state: 'detached' });
      await workbench.shoot('package-2-fixed');
      await focusText(page);
      await page.keyboard.press('Control+Z');
      await page.keyboard.press('Control+S');
      await expect.poll(manifest).toBe(before);
      await page.keyboard.press('Control+J');
    });

    it('on the cutting mat an edge that is dragged onto a knee is found; let go, the text has it', async () => {
      const { page } = workbench;
      await goToFrame(page, 'boardwalk-01.jpg');
      bench = await MatBench.on(workbench);
      const { mat } = bench;
      await bench.shown('boardwalk-01.jpg');
      await mat.getByLabel('Body map').check();
      await mat.getByLabel('Keep the shape').uncheck();
      await mat.locator('.hold').first().waitFor(WAIT);
      const before = bench.manifest();
      const edge = await middleOf(mat.locator('.handle.bottom:not(.left):not(.right)'));
      const [, knee] = await middleOf(mat.getByLabel(/^left knee of person 1/));
      await bench.pull(edge, [edge[0], knee]);
      await expect.poll(() => bench.text('findings'), WAIT).toContain('knee');
      await workbench.shoot('package-3-knee');
      await page.mouse.up();
      expect(await bench.saved(before)).toEqual([expect.stringMatching(CROP_LINE)]);
    });

    it('another length of the ladder is one click', async () => {
      const before = bench.manifest();
      await bench.mat.getByLabel('Keep the shape').check();
      await bench.mat.locator('.rung', { hasText: 'half length' }).click();
      await bench.mat.locator('#facts', { hasText: 'half length' }).waitFor({ ...WAIT, state: 'attached' });
      expect(await bench.saved(before)).toEqual([expect.stringMatching(CROP_LINE)]);
    });

    it('a joint that is put right by hand is in the people file, and other things are found', async () => {
      await bench.show('boardwalk-07.jpg');
      const { mat, page } = bench;
      const [people, found] = [bench.people(), await bench.text('findings')];
      const hip = await middleOf(mat.getByLabel(/^left hip of person 1/));
      await bench.pull(hip, [hip[0] + 4, hip[1] - 45]);
      await page.mouse.up();
      await mat.getByText('Person 1, by hand').waitFor(WAIT);
      await expect.poll(() => bench.people(), WAIT).not.toBe(people);
      expect(bench.people()).toContain('"source":"hand"');
      await expect.poll(() => bench.text('findings'), WAIT).not.toBe(found);
      await workbench.shoot('package-4-joint');
    });

    it('on the contact sheet all frames that a rule speaks of are fixed at once', async () => {
      const { page } = workbench;
      await goToFrame(page, 'boardwalk-01.jpg');
      await runCommand(page, 'Selvedge: Open the Contact Sheet');
      const sheet = await webviewWith(page, '#grid .cell');
      await sheet.getByLabel('Rule').selectOption('joint-cut');
      await sheet.locator('#grid').focus();
      await page.keyboard.press('Control+A');
      await sheet.getByRole('button', { name: 'Fix', exact: true }).click();
      await sheet.locator('#review-rows .row').first().waitFor(WAIT);
      await workbench.shoot('package-5-sheet');
      const before = manifest();
      await sheet.getByRole('button', { name: /^Write \d+ New Crops?$/ }).click();
      await expect.poll(() => sheet.locator('#told').textContent(), WAIT).toContain('changed.');
      await runCommand(page, 'File: Save All Files');
      await page.locator('.tab.dirty').waitFor({ state: 'detached' });
      expect(manifest()).not.toBe(before);
    });

    it('measures a new photo with the models of the package, and tells how far it is', async () => {
      const { page } = workbench;
      const people = inSession('crops.people.jsonl');
      const isMeasured = (): boolean => existsSync(people) && readFileSync(people, 'utf8').includes(NEW_PHOTO);
      expect(isMeasured()).toBe(false);
      await page.keyboard.press('Control+Shift+M');
      await problem(NEW_PHOTO).waitFor();
      await chooseAction(page, problem(NEW_PHOTO), 'Measure');
      await page.locator('.notifications-toasts').getByText('Measuring people').waitFor();
      await expect.poll(isMeasured, { timeout: 120_000 }).toBe(true);
      await problem(NEW_PHOTO).waitFor({ state: 'detached' });
      await workbench.shoot('package-6-measured');
    });

    it('shows in the source-control diff that only numbers changed', async () => {
      const { page } = workbench;
      await focusText(page);
      await openReview(page);
      await workbench.shoot('package-7-review');
      const diff = execFileSync('git', ['diff', '--unified=0', 'crops.yaml'], { cwd: inSession(), encoding: 'utf8' });
      const lines = diff.split('\n').filter((line) => /^[+-](?![+-])/.test(line));
      expect(lines.length).toBeGreaterThan(4);
      for (const line of lines) expect(line.slice(1)).toMatch(CROP_LINE);
    });
  });
});
