import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Frame } from 'playwright-core';

const SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * What axe-core finds wrong with a webview's page as it is now, one line for each kind of fault; none when all is well.
 * The script is handed to the browser itself, so the page's own policy keeps forbidding everybody else's.
 */
export async function accessibilityFaults(page: Frame): Promise<string[]> {
  await page.evaluate(SOURCE);
  const results = await page.evaluate<AxeResults>('axe.run(document, { resultTypes: ["violations"] })');
  return results.violations.map(({ id, help, nodes }) => {
    const places = nodes.slice(0, 3).map(({ target, failureSummary = '' }) => {
      return `${target.join(' ')}: ${failureSummary.replaceAll(/\s+/g, ' ')}`;
    });
    return `${id}: ${help} (${nodes.length}) ${places.join('; ')}`;
  });
}
