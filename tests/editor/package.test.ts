import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePackage } from '../../src/tooling/package/make.mjs';
import { PROJECT_FOLDER } from '../truth/support/project.ts';
import { underVersionControl } from './host/version-control.ts';
import {
  chooseAction,
  hoverOverPhoto,
  openReview,
  openWorkbench,
  runCommand,
  webviewWith,
  type Workbench,
} from './host/workbench.ts';
import { withHost } from './host/with-host.ts';

/** The goal for a package with everything that one platform needs. */
const MOST_BYTES = 100e6;
const NEW_PHOTO = 'straight-from-the-camera.jpg';

/** What a photographer does who has the package and a folder of photographs, and nothing else of this project. */
await withHost((host) => {
  describe('the extension from its package', () => {
    let workbench: Workbench;
    const inSession = (...path: string[]): string => join(workbench.workspace, 'harbour', ...path);
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
      const before = readFileSync(inSession('crops.yaml'), 'utf8').split('\n');
      await chooseAction(page, problem('face'), 'Nearest clean crop');
      await page.locator('.tab.active.dirty').waitFor();
      await page.keyboard.press('Control+S');
      await page.locator('.tab.active:not(.dirty)').waitFor();
      const after = readFileSync(inSession('crops.yaml'), 'utf8').split('\n');
      const changed = after.filter((line, index) => line !== before[index]);
      expect(changed).toEqual([expect.stringMatching(/^ {4}crop: \{ x: [\d.]+, y: [\d.]+, w: [\d.]+, h: [\d.]+ \}$/)]);
    });

    it('opens the cutting mat with the photo on it', async () => {
      const { page } = workbench;
      await runCommand(page, 'Selvedge: Open the Cutting Mat');
      const mat = await webviewWith(page, '#crop');
      const width = (photo: unknown): number => (photo as { naturalWidth: number }).naturalWidth;
      await expect.poll(() => mat.locator('#photo').evaluate(width), { timeout: 60_000 }).toBeGreaterThan(0);
      await workbench.shoot('package-2-mat');
    });

    it('measures a new photo with the models of the package', async () => {
      const { page } = workbench;
      const people = inSession('crops.people.jsonl');
      const isMeasured = (): boolean => existsSync(people) && readFileSync(people, 'utf8').includes(NEW_PHOTO);
      expect(isMeasured()).toBe(false);
      await problem(NEW_PHOTO).waitFor();
      await chooseAction(page, problem(NEW_PHOTO), 'Measure');
      await expect.poll(isMeasured, { timeout: 120_000 }).toBe(true);
      await problem(NEW_PHOTO).waitFor({ state: 'detached' });
      await workbench.shoot('package-3-measured');
    });

    it('shows in the source-control diff that only numbers changed', async () => {
      const { page } = workbench;
      await page
        .locator('.editor-instance')
        .first()
        .click({ position: { x: 420, y: 60 } });
      await openReview(page);
      await workbench.shoot('package-4-review');
      const diff = execFileSync('git', ['diff', '--unified=0', 'crops.yaml'], { cwd: inSession(), encoding: 'utf8' });
      const lines = diff.split('\n').filter((line) => /^[+-](?![+-])/.test(line));
      expect(lines).toHaveLength(2);
      for (const line of lines)
        expect(line).toMatch(/^[+-] {4}crop: \{ x: [\d.]+, y: [\d.]+, w: [\d.]+, h: [\d.]+ \}$/);
    });
  });
});
