import { describe, expect, it } from 'vitest';
import { prepareHost, type EditorHost } from './host/prepare.ts';
import { runSuite } from './host/run-suite.ts';

/*
 * Tests inside a real extension host. The host comes from the package registry with the first run; where it cannot be
 * had, one skipped test says why.
 */
const host = await prepareHost().catch((error: unknown) => String(error));

describe('in the extension host', async () => {
  if (typeof host === 'string') {
    it.skip(`SKIPPED, no editor host: ${host}`, () => undefined);
    return;
  }
  await report(host, 'tests/editor/suite/trusted.ts', true);
  await report(host, 'tests/editor/suite/untrusted.ts', false);
});

async function report(ready: EditorHost, suite: string, isTrusting: boolean): Promise<void> {
  const results = await runSuite(ready, suite, isTrusting);
  for (const { name, error } of results) {
    it(name, () => {
      expect(error ?? 'as it should be').toBe('as it should be');
    });
  }
}
