import type { Frame, Page } from 'playwright-core';

const FOCUSED =
  '(({ activeElement: e }) => e?.getAttribute("aria-label") ?? e?.labels?.[0]?.textContent ?? e?.textContent ?? "")(document)';

/** Goes on with Tab until something in a webview has the focus; by its name, as it is read aloud. */
export async function tabTo(page: Page, webview: Frame, name: RegExp, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  for (let step = 0; step < 160; step++) {
    if (name.test((await webview.evaluate<string>(FOCUSED)).trim())) return;
    await page.keyboard.press(key);
  }
  throw new Error(`Tab does not come to ${String(name)}.`);
}
