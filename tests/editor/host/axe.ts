import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Frame } from 'playwright-core';
import { PROJECT_FOLDER } from '../../truth/support/project.ts';

interface Result {
  readonly violations: readonly {
    readonly id: string;
    readonly help: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
  }[];
}

/** What axe-core has to say against a page, in words; the page's own policy lets the checker in through the browser alone. */
export async function violations(frame: Frame): Promise<string[]> {
  const source = readFileSync(join(PROJECT_FOLDER, 'node_modules', 'axe-core', 'axe.min.js'), 'utf8');
  await frame.evaluate(source);
  const { violations: found } = await frame.evaluate<Result>('axe.run(document, { resultTypes: ["violations"] })');
  return found.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${help}\n${html.slice(0, 300)}\n${failureSummary ?? ''}`),
  );
}
