import type { Page } from 'playwright-core';

/** Puts the cursor on a frame by its name, as somebody at a keyboard does. */
export async function goToFrame(page: Page, name: string): Promise<void> {
  await page
    .locator('.editor-instance')
    .first()
    .click({ position: { x: 420, y: 60 } });
  await page.keyboard.press('Control+Shift+O');
  await page.locator('.quick-input-widget input.input').fill(`@${name}`);
  await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: name }).first().waitFor();
  await page.keyboard.press('Enter');
}
