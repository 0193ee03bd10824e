import type { Frame } from 'playwright-core';

const MISSING =
  'document.querySelectorAll(".cell").length - [...document.querySelectorAll(".cell img")].filter((image) => image.naturalWidth > 0).length';
const MOST_WAITING = 60_000;
const STEP = 100;

/** Waits until each cell of the contact sheet near the view has its picture. */
export async function picturesIn(sheet: Frame): Promise<void> {
  for (let waited = 0; waited < MOST_WAITING; waited += STEP) {
    if ((await sheet.evaluate<number>(MISSING)) === 0) return;
    await sheet.page().waitForTimeout(STEP);
  }
  throw new Error(`Pictures of the contact sheet are missing after ${MOST_WAITING / 1000} s.`);
}
