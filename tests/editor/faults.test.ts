import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runSuite } from './host/run-suite.ts';
import { underVersionControl } from './host/version-control.ts';
import { withHost } from './host/with-host.ts';

/** A window with two folders: `harbour`, under version control, and `clients`, with a session in a folder of its own. */
function arrange(workspace: string): string {
  const inWorkspace = (...path: string[]): string => join(workspace, ...path);
  mkdirSync(inWorkspace('clients', '.vscode'), { recursive: true });
  writeFileSync(inWorkspace('clients', '.vscode', 'settings.json'), JSON.stringify({ 'selvedge.hints': false }));
  renameSync(inWorkspace('portfolio'), inWorkspace('clients', 'june'));
  underVersionControl(inWorkspace('harbour'));
  const file = inWorkspace('both.code-workspace');
  writeFileSync(file, JSON.stringify({ folders: [{ path: 'harbour' }, { path: 'clients' }] }));
  return file;
}

await withHost((host) => {
  describe('with several folders, and when things go wrong', async () => {
    const results = await runSuite(host, 'tests/editor/suite/folders.ts', true, arrange);
    for (const { name, error, skipped } of results) {
      it.skipIf(skipped !== undefined)(skipped === undefined ? name : `${name} (skipped: ${skipped})`, () => {
        expect(error ?? 'as it should be').toBe('as it should be');
      });
    }
  });
});
