import { expect, it } from 'vitest';
import { WAIT, type MatBench } from './host/mat.ts';

/** What is done about a finding on the mat: each deed is one edit of the text, and one step back. */
export function deeds(open: () => MatBench): void {
  const approvals = (manifest: string): number => manifest.split('    final: true\n').length - 1;
  const row = (bench: MatBench, text: string) => bench.mat.locator('#findings li').filter({ hasText: text }).first();

  it('the best fix of a finding is the lamp’s, one click away, and what it costs is said until it is undone', async () => {
    const bench = open();
    const { mat } = bench;
    await bench.show('boardwalk-07.jpg');
    const before = bench.manifest();
    const found = row(bench, 'left hip');
    await found.getByRole('button', { name: /^Nearest clean crop: / }).click();
    expect((await bench.saved(before)).map((line) => line.trim().split(':')[0])).toEqual(['crop']);
    await found.waitFor({ ...WAIT, state: 'detached' });
    await bench.undo(before);
    await found.waitFor(WAIT);
    await bench.show('boardwalk-01.jpg');
    await mat.locator('.rung', { hasText: 'half length' }).click();
    await mat.locator('#notice', { hasText: 'from full length to half length' }).waitFor(WAIT);
    await bench.saved(before);
    expect(await bench.text('notice')).toContain('from full length to half length');
    await bench.undo(before);
    await expect.poll(() => bench.text('notice'), WAIT).toBe('');
  });

  it('a finding is allowed with a reason that is typed on the mat; Escape gives up, and markup is text', async () => {
    const bench = open();
    const { mat, page } = bench;
    await bench.show('boardwalk-07.jpg');
    const before = bench.manifest();
    const allow = row(bench, 'left hip').getByRole('button', {
      name: 'Allow joint-cut/left_hip in this frame, in all its crops, and say why',
    });
    await allow.click();
    await page.keyboard.type('never mind');
    await page.keyboard.press('Escape');
    await allow.click();
    await page.keyboard.type('client’s choice: "tight" # <b>');
    await page.keyboard.press('Enter');
    expect(await bench.saved(before)).toEqual([
      String.raw`      joint-cut/left_hip: "client’s choice: \"tight\" # <b>"`,
    ]);
    await row(bench, 'left hip').waitFor({ ...WAIT, state: 'detached' });
    await mat.locator('#findings li').first().waitFor(WAIT);
    await bench.undo(before);
  });

  it('a frame is approved as it is, changed by nothing then, and the approval is taken back', async () => {
    const bench = open();
    const { mat } = bench;
    await bench.show('boardwalk-07.jpg');
    const before = bench.manifest();
    await mat.getByRole('button', { name: 'Approve as it is' }).click();
    await bench.saved(before);
    expect(approvals(bench.manifest())).toBe(approvals(before) + 1);
    await mat.locator('#state', { hasText: 'approved' }).waitFor(WAIT);
    expect(await mat.locator('.rung:not(:disabled)').count()).toBe(0);
    const approved = bench.manifest();
    await mat.getByRole('button', { name: 'Take back the approval' }).click();
    await bench.saved(approved);
    await mat.getByRole('button', { name: 'Approve as it is' }).waitFor(WAIT);
    bench.write('crops.yaml', before);
    await mat.locator('#findings', { hasText: 'left hip' }).waitFor(WAIT);
  });

  it('the crop for an output is shown, of the next frame, too; moved, it becomes the frame’s own', async () => {
    const bench = open();
    const { mat, page } = bench;
    const choice = mat.locator('#output');
    const choose = (id: string) => choice.selectOption({ value: id });
    const chosen = (id: string) => expect.poll(() => choice.inputValue(), WAIT).toBe(id);
    const size = async (): Promise<number[]> => (await bench.text('facts'))!.match(/(\d+) × (\d+) px/)!.slice(1).map(Number); // prettier-ignore
    await bench.show('boardwalk-02.jpg');
    await chosen('');
    await choose('album');
    await expect.poll(size, WAIT).toEqual([1071, 1428]);
    const [width, height] = await size();
    expect(width! / height!).toBeCloseTo(3 / 4, 2);
    await bench.workbench.shoot('mat-output');
    await mat.getByRole('button', { name: 'Next', exact: true }).click();
    await bench.shown('boardwalk-03.jpg');
    await chosen('album');
    const before = bench.manifest();
    await mat.locator('#crop').focus();
    await page.keyboard.press('ArrowUp');
    const lines = await bench.saved(before);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(/^ {4}deliver: \{ album: \{ x: .*, h: .* \} \}$/);
    await bench.undo(before);
    await choose('');
    await mat.getByLabel('Turned by', { exact: true }).and(mat.locator(':enabled')).waitFor(WAIT);
  });

  it('a key moves the whole crop by a step that the text can say, and leaves its size as it was', async () => {
    const bench = open();
    await bench.show('boardwalk-07.jpg');
    const before = bench.manifest();
    await bench.mat.locator('#crop').focus();
    await bench.page.keyboard.press('ArrowDown');
    expect(await bench.saved(before)).toEqual(['    crop: { x: 0, y: 0.0015, w: 0.9, h: 0.9 }']);
    await bench.undo(before);
  });

  it('each length says beforehand what it would be found for', async () => {
    const bench = open();
    const { mat } = bench;
    await bench.show('boardwalk-09.jpg');
    const rung = mat.getByRole('button', { name: /^half length\W+\d+\W+warnings?$/ });
    const told = Number(/\d+/.exec((await rung.textContent())!)![0]);
    expect(await rung.locator('.icon.warning').count()).toBe(1);
    const before = bench.manifest();
    await rung.click();
    await mat.locator('#summary', { hasText: new RegExp(`^${told} warnings?`) }).waitFor(WAIT);
    // Undone without being saved, the text is as it was saved, and nothing tells when.
    await bench.saved(before);
    await bench.undo(before);
  });
}
