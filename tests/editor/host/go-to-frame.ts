import type { Page } from 'playwright-core';

/** Clicks into the text, beside what could be a link. */
export async function focusText(page: Page): Promise<void> {
  await page
    .locator('.editor-instance')
    .first()
    .click({ position: { x: 420, y: 60 } });
}

/** Puts the cursor on a frame by its name, from wherever the focus is. */
export async function goToFrame(page: Page, name: string): Promise<void> {
  await focusText(page);
  await typeFrame(page, name);
}

/** The same with the keyboard alone, from the text. */
export async function typeFrame(page: Page, name: string): Promise<void> {
  await page.keyboard.press('Control+Shift+O');
  await page.locator('.quick-input-widget input.input').fill(`@${name}`);
  await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: name }).first().waitFor();
  await page.keyboard.press('Enter');
}
