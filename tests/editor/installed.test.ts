import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { PROJECT_FOLDER } from '../truth/support/project.ts';
import { runInInstalled } from './host/installed.ts';
import { withHost } from './host/with-host.ts';

/*
 * The suites of the extension host in an editor that is installed here: `SELVEDGE_EDITOR=/path/to/its/program`. (Their runner
 * trusts every folder, so the untrusted suite stays with the npm editor host.) Where none is named, a stand-in that takes
 * the same arguments shows that the way to it works.
 */
const installed = process.env['SELVEDGE_EDITOR'];

if (installed !== undefined && installed !== '') await describeIn(installed, 'tests/editor/suite/trusted.ts');
else {
  const standIn = join(PROJECT_FOLDER, 'dist', 'tests', 'stand-in.mjs');
  await withHost(async () => {
    await buildStandIn(standIn);
    await describeIn(standIn, 'tests/editor/suite/first-look.ts');
  });
}

async function describeIn(executable: string, suite: string): Promise<void> {
  const results = await runInInstalled(executable, suite);
  describe(`in the editor ${executable.slice(executable.lastIndexOf('/') + 1)}`, () => {
    for (const { name, error, skipped } of results) {
      it.skipIf(skipped !== undefined)(name, () => {
        expect(error ?? 'as it should be').toBe('as it should be');
      });
    }
  });
}

async function buildStandIn(outfile: string): Promise<void> {
  await build({
    absWorkingDir: PROJECT_FOLDER,
    entryPoints: ['tests/editor/host/stand-in.ts'],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20.9',
    format: 'esm',
    packages: 'external',
    banner: { js: '#!/usr/bin/env node' },
  });
  chmodSync(outfile, 0o755);
}
