import { describe, expect, it } from 'vitest';
import type { EditorHost } from './host/prepare.ts';
import { runSuite } from './host/run-suite.ts';
import { withHost } from './host/with-host.ts';

await withHost(describeInHost);

/** Tests that run inside a real extension host; each is one test of this run. */
function describeInHost(host: EditorHost): void {
  describe('in the extension host', async () => {
    await report(host, 'tests/editor/suite/trusted.ts', true);
    await report(host, 'tests/editor/suite/untrusted.ts', false);
  });
}

async function report(host: EditorHost, suite: string, isTrusting: boolean): Promise<void> {
  const results = await runSuite(host, suite, isTrusting);
  for (const { name, error } of results) {
    it(name, () => {
      expect(error ?? 'as it should be').toBe('as it should be');
    });
  }
}
