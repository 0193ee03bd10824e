import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { goToFrame } from './host/go-to-frame.ts';
import { MatBench, WAIT } from './host/mat.ts';
import type { EditorHost } from './host/prepare.ts';
import { withHost } from './host/with-host.ts';
import { middleOf, runCommand } from './host/workbench.ts';
import { deeds } from './mat-deeds.ts';
import { keyboardAndThemes } from './mat-keyboard.ts';
import { trouble } from './mat-trouble.ts';

await withHost(describeMat);

/** The cutting mat in a real workbench, as a photographer uses it: with the pointer, and then with the keyboard alone. */
function describeMat(host: EditorHost): void {
  describe('the cutting mat', () => {
    let bench: MatBench;

    beforeAll(async () => {
      bench = await MatBench.open(host, 'boardwalk-01.jpg');
      await bench.mat.getByLabel('Body map').check();
      await bench.mat.locator('.hold').first().waitFor(WAIT);
    });
    afterAll(async () => {
      await bench.workbench.close();
    });

    it('an edge that is dragged onto a knee is found at once; let go, the text has it; undo takes it back', async () => {
      const { mat, page } = bench;
      const before = bench.manifest();
      const found = (): Promise<string | null> => bench.text('findings');
      await mat.getByLabel('Keep the shape').uncheck();
      expect(await found()).not.toContain('knee');
      const edge = await middleOf(mat.locator('.handle.bottom:not(.left):not(.right)'));
      const [, knee] = await middleOf(mat.getByLabel(/^left knee of person 1/));
      await bench.pull(edge, [edge[0], knee]);
      await expect.poll(found, WAIT).toContain('knee');
      await bench.workbench.shoot('mat-1-knee');
      expect(bench.manifest()).toBe(before);
      await page.mouse.up();
      const lines = await bench.saved(before);
      expect(lines).toHaveLength(1);
      expect(lines[0]).toMatch(/^ {4}crop: \{ x: 0, y: 0, w: 1, h: 0\.\d{1,4} \}$/);
      await bench.undo(before);
      await mat.getByLabel('Keep the shape').check();
    });

    it('a crop keeps its shape however often it is let go', async () => {
      const { mat, page } = bench;
      await bench.show('studio-03.jpg');
      const shape = (await bench.text('facts'))!.split(', ')[1]!;
      for (const [x, y] of [
        [-60, -12],
        [25, 30],
        [-40, 20],
      ] as const) {
        // prettier-ignore
        const before = bench.manifest();
        const corner = await middleOf(mat.getByLabel('lower right corner'));
        await bench.pull(corner, [corner[0] + x, corner[1] + y]);
        await page.mouse.up();
        await bench.saved(before);
      }
      expect((await bench.text('facts'))!.split(', ')[1]).toBe(shape);
    });

    it('another length is one click away', async () => {
      await bench.show('boardwalk-01.jpg');
      const before = bench.manifest();
      await bench.mat.locator('.rung', { hasText: 'half length' }).click();
      await bench.mat.locator('#facts', { hasText: 'half length' }).waitFor(WAIT);
      expect(await bench.saved(before)).toHaveLength(1);
      await bench.undo(before);
    });

    it('a line along the horizon levels the picture: one edit, of crop and straighten together', async () => {
      const { mat, page } = bench;
      const before = bench.manifest();
      await mat.getByRole('button', { name: 'Level along a line' }).click();
      const [x, y] = await middleOf(mat.locator('#stage'));
      // 4 pixels in 100 are 2.29 degrees; drawn from right to left it is the same line.
      await bench.pull([x + 50, y + 2], [x - 50, y - 2]);
      await bench.workbench.shoot('mat-2-line');
      await page.mouse.up();
      const lines = await bench.saved(before);
      expect(lines.map((line) => line.trim().split(':')[0]).sort()).toEqual(['crop', 'straighten']);
      expect(lines.find((line) => line.includes('straighten'))).toBe('    straighten: -2.29');
      await bench.workbench.shoot('mat-3-levelled');
      expect(await bench.text('findings')).not.toContain('outside-photo');
      await bench.undo(before);
      await expect.poll(() => mat.getByLabel('Turned by', { exact: true }).inputValue(), WAIT).toBe('0');
    });

    it('the slider turns the picture while it is held, and the text only when it is let go', async () => {
      const { mat, page } = bench;
      const before = bench.manifest();
      const [x, y] = await middleOf(mat.locator('#level-slider'));
      await bench.pull([x, y], [x + 24, y]);
      await expect.poll(() => mat.getByLabel('Turned by', { exact: true }).inputValue(), WAIT).not.toBe('0');
      await bench.workbench.shoot('mat-4-turning');
      expect(await page.locator('.tab.dirty').count()).toBe(0);
      await page.mouse.up();
      await bench.saved(before);
      await bench.undo(before);
    });

    it('a joint that is moved by hand is in the people file, changes what is found, and can be taken back', async () => {
      const { mat, page } = bench;
      const before = bench.people();
      await bench.show('boardwalk-07.jpg');
      const found = await bench.text('findings');
      const hip = await middleOf(mat.getByLabel(/^left hip of person 1/));
      await bench.pull(hip, [hip[0] + 4, hip[1] - 45]);
      await expect.poll(() => bench.text('findings'), WAIT).not.toBe(found);
      await bench.workbench.shoot('mat-5-joint');
      expect(bench.people()).toBe(before);
      await page.mouse.up();
      await mat.getByText('Person 1, by hand').waitFor(WAIT);
      await expect.poll(() => bench.people(), WAIT).not.toBe(before);
      const lines = bench.people().split('\n');
      const changed = before.split('\n').filter((line, index) => line !== lines[index]); // prettier-ignore
      expect(changed).toHaveLength(1);
      expect(lines.find((line) => line.includes('boardwalk-07'))).toContain('"source":"hand"');
      expect(await bench.text('findings')).not.toBe(found);
      await mat.getByRole('button', { name: 'Take back' }).click();
      await expect.poll(() => bench.people(), WAIT).toBe(before);
      await expect.poll(() => bench.text('findings'), WAIT).toBe(found);
      // Nothing more can be taken back: the keys stay beside that button.
      await mat.locator('#people-add:focus').waitFor(WAIT);
    });

    it('somebody who was missed is added with a few clicks, completed, and taken out again', async () => {
      const { mat, page } = bench;
      const line = (): string => bench.people().split('\n').find((each) => each.includes('boardwalk-07'))!; // prettier-ignore
      const before = line();
      await mat.getByRole('button', { name: 'Add a person' }).click();
      const [x, y] = await middleOf(mat.locator('#stage'));
      const click = async (place: RegExp, dx: number, dy: number): Promise<void> => {
        await mat.locator('#prompt', { hasText: place }).waitFor(WAIT);
        await page.mouse.click(x + dx, y + dy);
      };
      await click(/top of the head/, 90, -40);
      await mat.getByRole('button', { name: 'Not seen' }).click();
      await click(/right eye/, 88, -28);
      await click(/nose/, 90, -26);
      await bench.workbench.shoot('mat-6-adding');
      await mat.getByRole('button', { name: 'Enough' }).click();
      await mat.getByText('Person 2, by hand').waitFor(WAIT);
      await expect.poll(line, WAIT).not.toBe(before);
      expect(JSON.parse(line())).toMatchObject({
        people: [
          { id: 1, source: 'model' },
          { id: 2, source: 'hand' },
        ],
      });
      await mat.getByLabel('Joints of person 2 that are missing').selectOption({ label: 'left shoulder' });
      await mat.getByLabel('Place the chosen joint of person 2').click();
      await click(/left shoulder/, 100, 0);
      await mat.getByLabel(/^left shoulder of person 2/).waitFor(WAIT);
      await mat.getByLabel('Take out person 2').click();
      await mat.getByText('Person 2, by hand').waitFor({ ...WAIT, state: 'detached' });
      await expect.poll(line, WAIT).toBe(before);
    });

    it('looked at closely the photo is as sharp as it is', async () => {
      const { mat, page } = bench;
      await mat.locator('#crop').focus();
      await page.keyboard.press('1');
      const sharpness = (id: string): Promise<number> =>
        mat.locator(id).evaluate((image: unknown) => {
          const { naturalWidth, clientWidth } = image as { naturalWidth: number; clientWidth: number };
          return naturalWidth / clientWidth;
        });
      await mat.locator('#detail:not([hidden])').waitFor(WAIT);
      expect(await sharpness('#photo')).toBeLessThan(0.8);
      expect(await sharpness('#detail')).toBeCloseTo(1, 1);
      await bench.workbench.shoot('mat-7-close');
      await page.keyboard.press('0');
      const [x, y] = await middleOf(mat.locator('#stage'));
      await page.mouse.move(x, y);
      const width = (): Promise<number> => mat.locator('#picture').evaluate((each: unknown) => (each as { clientWidth: number }).clientWidth); // prettier-ignore
      const fitted = await width();
      await page.keyboard.down('Control');
      await page.mouse.wheel(0, -300);
      await page.keyboard.up('Control');
      await expect.poll(width, WAIT).toBeGreaterThan(fitted * 1.2);
      await mat.getByRole('button', { name: 'All', exact: true }).click();
      await expect.poll(width, WAIT).toBe(fitted);
    });

    it('the crop as it was saved can be seen beside the one that is being tried', async () => {
      const { mat, page } = bench;
      const before = bench.manifest();
      await mat.getByLabel('Crop as saved').check();
      await mat.locator('.rung', { hasText: 'head and shoulders' }).click();
      await mat.locator('polygon.saved').waitFor({ ...WAIT, state: 'attached' });
      await bench.workbench.shoot('mat-8-saved');
      await mat.locator('#crop').focus();
      await page.keyboard.press('Control+Z');
      await page.locator('.tab.dirty').waitFor({ ...WAIT, state: 'detached' });
      await mat.locator('polygon.saved').waitFor({ ...WAIT, state: 'detached' });
      await mat.getByLabel('Crop as saved').uncheck();
      expect(bench.manifest()).toBe(before);
    });

    it('each guide is a command too, they combine, and are as they were when the mat is opened again', async () => {
      const guides = ['Thirds', 'Centre and symmetry', 'Eye line', 'Safe margin'];
      for (const guide of guides) {
        await runCommand(bench.page, `Selvedge: Cutting Mat: Turn ${guide} On or Off`);
        await expect.poll(() => bench.mat.getByLabel(guide).isChecked(), WAIT).toBe(true);
        await bench.page.locator('.quick-input-widget').waitFor({ ...WAIT, state: 'hidden' });
      }
      await bench.workbench.shoot('mat-9-guides');
      const tab = bench.page.locator('.tab', { hasText: 'Cutting Mat' });
      await tab.locator('.codicon-close').click();
      await tab.waitFor({ ...WAIT, state: 'detached' });
      await goToFrame(bench.page, 'boardwalk-07.jpg');
      await bench.openMat();
      await bench.shown('boardwalk-07.jpg');
      for (const guide of guides) await expect.poll(() => bench.mat.getByLabel(guide).isChecked(), WAIT).toBe(true);
      for (const guide of guides) await bench.mat.getByLabel(guide).uncheck();
    });

    deeds(() => bench);
    keyboardAndThemes(() => bench);
    trouble(() => bench);
  });
}
