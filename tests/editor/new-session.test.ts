import { copyFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { EditorHost } from './host/prepare.ts';
import { withHost } from './host/with-host.ts';
import { openWorkbench, type Workbench } from './host/workbench.ts';

const TITLE = 'New Session from a Folder…';

await withHost(describeNewSession);

/** A photographer begins a session with a folder of photos, by hand, in a real workbench. */
function describeNewSession(host: EditorHost): void {
  describe('a new session from a folder in the explorer', () => {
    let workbench: Workbench;
    const path = (...parts: string[]): string => join(workbench.workspace, 'fresh', ...parts);
    const notice = (text: string | RegExp) =>
      workbench.page.locator('.notification-toast').filter({ hasText: text }).first();

    beforeAll(async () => {
      workbench = await openWorkbench(host, 'portfolio/crops.yaml', {}, { arrange: addPhotos });
      // The menu is complete when the extension is there.
      await workbench.page.locator('.part.statusbar').getByText(/\d+ frames: /).waitFor({ timeout: 60_000 }); // prettier-ignore
    });
    afterAll(async () => {
      await workbench.close();
    });

    async function beginInExplorer(): Promise<void> {
      const { page } = workbench;
      await page.keyboard.press('Control+Shift+E');
      const row = page.locator('.explorer-folders-view .monaco-list-row').filter({ hasText: /^fresh$/ });
      const item = page.getByRole('menuitem', { name: TITLE });
      for (;;) {
        await row.click({ button: 'right' });
        await item.waitFor();
        if (await item.isEnabled()) break;
        // The workbench does not know yet that the folder is trusted; an open menu is not told.
        await page.keyboard.press('Escape');
        await item.waitFor({ state: 'hidden' });
      }
      // A menu that has only just opened takes no click.
      await item.hover();
      await page.keyboard.press('Enter');
      await item.waitFor({ state: 'hidden' });
    }

    it('opens the manifest, says how many photos were left out and offers to measure', async () => {
      await beginInExplorer();
      const told = notice('1 frame, one for each photo. Left out: 1 photo with a name that a manifest cannot carry');
      await told.waitFor();
      await workbench.page.locator('.tab.active[data-resource-name="crops.yaml"]').waitFor();
      await workbench.shoot('new-session');
      expect(readFileSync(path('crops.yaml'), 'utf8')).toContain('photo: boardwalk-06.jpg');
      await told.getByRole('button', { name: 'Measure the People in the Photos' }).click();
      await notice('1 photo measured.').waitFor({ timeout: 60_000 });
      expect(existsSync(path('crops.people.jsonl'))).toBe(true);
    });

    it('says that a manifest is there, and leaves it', async () => {
      const before = readFileSync(path('crops.yaml'));
      await beginInExplorer();
      await notice('is there already and stays as it is').waitFor();
      expect(readFileSync(path('crops.yaml'))).toEqual(before);
    });
  });
}

function addPhotos(workspace: string): void {
  mkdirSync(join(workspace, 'fresh'));
  copyFileSync(join(workspace, 'harbour', 'proofs', 'boardwalk-06.jpg'), join(workspace, 'fresh', 'boardwalk-06.jpg'));
  writeFileSync(join(workspace, 'fresh', 'back\\slash.jpg'), 'x');
}
