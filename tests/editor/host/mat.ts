import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Frame, Page } from 'playwright-core';
import { expect } from 'vitest';
import { goToFrame } from './go-to-frame.ts';
import type { EditorHost } from './prepare.ts';
import { tabTo } from './tab-to.ts';
import { openWorkbench, runCommand, webviewWith, type Workbench } from './workbench.ts';

export const WAIT = { timeout: 60_000 };

/** A workbench with the sample session's mat open, and what a test says of it again and again. */
export class MatBench {
  readonly workbench: Workbench;
  readonly page: Page;
  #mat: Frame;

  static async open(host: EditorHost, frame: string): Promise<MatBench> {
    const workbench = await openWorkbench(host, 'harbour/crops.yaml');
    const { page } = workbench;
    try {
      await page.locator('.monaco-editor .squiggly-warning').first().waitFor({ timeout: 60_000 });
      await goToFrame(page, frame);
      const bench = await MatBench.on(workbench);
      await bench.show(frame);
      return bench;
    } catch (error) {
      await workbench.close();
      throw error;
    }
  }

  /** Opens the mat in a workbench where the cursor stands on a frame. */
  static async on(workbench: Workbench): Promise<MatBench> {
    const bench = new MatBench(workbench, workbench.page.mainFrame());
    await bench.openMat();
    return bench;
  }

  private constructor(workbench: Workbench, mat: Frame) {
    this.workbench = workbench;
    this.page = workbench.page;
    this.#mat = mat;
  }

  get mat(): Frame {
    return this.#mat;
  }

  async openMat(): Promise<void> {
    await runCommand(this.page, 'Selvedge: Open the Cutting Mat');
    await this.findMat();
  }

  /** The page of a mat that was hidden is another one when it is seen again. */
  async findMat(): Promise<void> {
    this.#mat = await webviewWith(this.page, '#crop');
  }

  path(...parts: string[]): string {
    return join(this.workbench.workspace, 'harbour', ...parts);
  }

  manifest(): string {
    return readFileSync(this.path('crops.yaml'), 'utf8');
  }

  people(): string {
    return readFileSync(this.path('crops.people.jsonl'), 'utf8');
  }

  write(file: string, content: string | Uint8Array): void {
    writeFileSync(this.path(file), content);
  }

  text(id: string): Promise<string | null> {
    return this.mat.locator(`#${id}`).textContent();
  }

  async shown(name: string): Promise<void> {
    await this.mat.locator('#name', { hasText: new RegExp(`^${name.replaceAll('.', '\\.')}$`) }).waitFor(WAIT);
    await this.mat.locator('#photo:not([hidden])').waitFor(WAIT);
    await this.mat.locator('.rung').first().waitFor(WAIT);
  }

  async show(name: string): Promise<void> {
    await goToFrame(this.page, name);
    await this.shown(name);
  }

  /** Saves once the text was changed, and gives the lines that are new. */
  async saved(before: string): Promise<string[]> {
    await this.page.locator('.tab.dirty').waitFor(WAIT);
    await this.save();
    const old = new Set(before.split('\n'));
    return this.manifest().split('\n').filter((line) => !old.has(line)); // prettier-ignore
  }

  /** One step back, from the mat. */
  async undo(before: string): Promise<void> {
    await this.mat.locator('#crop').focus();
    await this.page.keyboard.press('Control+Z');
    await this.page.locator('.tab.dirty').waitFor(WAIT);
    // The step goes through the text; a key that is pressed while the focus comes back from there is nobody's.
    await expect.poll(() => this.mat.evaluate<boolean>('document.hasFocus()'), WAIT).toBe(true);
    await this.save();
    await expect.poll(() => this.manifest(), WAIT).toBe(before);
  }

  async save(): Promise<void> {
    await this.page.keyboard.press('Control+S');
    await this.page.locator('.tab.dirty').waitFor({ ...WAIT, state: 'detached' });
  }

  /** Presses, and moves without letting go. */
  async pull(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
    const { mouse } = this.page;
    await mouse.move(...from);
    await mouse.down();
    await mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
    await mouse.move(...to, { steps: 4 });
  }

  /** Goes on with Tab until something has the focus. */
  async tabTo(name: RegExp, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
    await tabTo(this.page, this.mat, name, key);
  }
}
