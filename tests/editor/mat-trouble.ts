import { existsSync, readFileSync, renameSync } from 'node:fs';
import { expect, it, onTestFinished } from 'vitest';
import { WAIT, type MatBench } from './host/mat.ts';
import { middleOf } from './host/workbench.ts';
import { harbourFrames } from './host/sample.ts';

const MARKUP = '<img src=x onerror=document.body.remove()>.jpg';

/** What goes wrong around the mat: it says so, and nothing is lost. */
export function trouble(open: () => MatBench): void {
  it('a people file that is broken is left alone, and the mat says why nothing was written', async () => {
    const bench = open();
    const { mat, page } = bench;
    await bench.show('boardwalk-07.jpg');
    const kept = bench.people();
    const broken = Buffer.from([0xff, 0xfe, 0x00, 0xc3, 0x28]);
    bench.write('crops.people.jsonl', broken);
    await mat.getByLabel(/^left hip of person 1/).focus();
    await page.keyboard.press('Shift+ArrowUp');
    await mat.locator('#notice', { hasText: 'UTF-8' }).waitFor(WAIT);
    expect(readFileSync(bench.path('crops.people.jsonl')).equals(broken)).toBe(true);
    await mat.locator('.hold').first().waitFor(WAIT);
    await bench.workbench.shoot('mat-trouble-people');
    bench.write('crops.people.jsonl', kept);
  });

  it('a photo that goes away is missed, the crop can still be changed, and it is seen again when it is back', async () => {
    const bench = open();
    const { mat } = bench;
    await bench.show('boardwalk-06.jpg');
    const before = bench.manifest();
    renameSync(bench.path('proofs', 'boardwalk-06.jpg'), bench.path('proofs', 'away'));
    // A second try, and the tests after this one, need the photo.
    onTestFinished(() => {
      if (existsSync(bench.path('proofs', 'away'))) renameSync(bench.path('proofs', 'away'), bench.path('proofs', 'boardwalk-06.jpg')); // prettier-ignore
    });
    await mat.locator('#findings', { hasText: 'photo-missing' }).waitFor(WAIT);
    await mat.locator('#crop').focus();
    await bench.page.keyboard.press('Shift+ArrowLeft');
    expect(await bench.saved(before)).toHaveLength(1);
    await bench.undo(before);
    renameSync(bench.path('proofs', 'away'), bench.path('proofs', 'boardwalk-06.jpg'));
    await mat.locator('#findings', { hasText: 'photo-missing' }).waitFor({ ...WAIT, state: 'detached' });
  });

  it('a text that somebody else changes while an edge is held gets the edge into the same frame', async () => {
    const bench = open();
    const { mat, page } = bench;
    await bench.show('boardwalk-06.jpg');
    const before = bench.manifest();
    const edge = await middleOf(mat.getByLabel('left edge', { exact: true }));
    await bench.pull(edge, [edge[0] + 30, edge[1]]);
    bench.write('crops.yaml', before.replace('frames:\n', `frames:\n  - photo: "${MARKUP}"\n\n`));
    await page.locator('.part.statusbar').getByText(new RegExp(`${harbourFrames() + 1} frames`)).waitFor(WAIT); // prettier-ignore
    expect(await bench.text('place')).toBe(`6 of ${harbourFrames()}`);
    await page.mouse.up();
    const lines = (await bench.saved(before)).filter((line) => !line.includes('onerror'));
    expect(lines).toHaveLength(1);
    const all = bench.manifest().split('\n');
    expect(all[all.indexOf(lines[0]!) - 1]).toContain('boardwalk-06.jpg');
    await mat.locator('#place', { hasText: `7 of ${harbourFrames() + 1}` }).waitFor(WAIT);
  });

  it('markup in a photo’s name is text', async () => {
    const bench = open();
    const { mat, page } = bench;
    for (let step = 0; step < 6; step++) {
      const place = await bench.text('place');
      await page.keyboard.press('PageUp');
      await expect.poll(() => mat.evaluate<string>('document.getElementById("place").textContent + document.getElementById("reason").textContent'), WAIT).not.toBe(`${place}${await bench.text('reason')}`); // prettier-ignore
    }
    await mat.locator('#reason', { hasText: '<img src=x' }).waitFor(WAIT);
    expect(await mat.locator('img[src="x"]').count()).toBe(0);
    bench.write('crops.yaml', bench.manifest().replace(`  - photo: "${MARKUP}"\n\n`, ''));
    await mat.locator('body:not(.empty)').waitFor(WAIT);
  });

  it('a manifest that is closed is missed, and followed when it is open again', async () => {
    const bench = open();
    const { mat, page } = bench;
    await page.locator('.tab', { hasText: 'crops.yaml' }).locator('.codicon-close').click();
    await mat.locator('#reason', { hasText: 'not open any more' }).waitFor(WAIT);
    await bench.workbench.shoot('mat-trouble-closed');
    await page.locator('.explorer-folders-view .monaco-list-row', { hasText: 'crops.yaml' }).dblclick();
    await page.locator('.monaco-editor .view-line').first().waitFor(WAIT);
    // The session is read by now, not only its text shown.
    await page.locator('.part.statusbar').getByText(/\d+ frames: /).waitFor(WAIT); // prettier-ignore
    await page.locator('.tab', { hasText: 'Cutting Mat' }).click();
    await bench.findMat();
    await bench.mat.locator('body:not(.empty)').waitFor(WAIT);
  });
}
