/**
 * Builds `dist/`: the command line, the editor's extension, the processes that touch pixels, and the converted models.
 * Plain Node, so that it runs before anything is built.
 */
import { chmod, mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { bundleExtension, bundlePanels, bundleRooms } from './bundles.mjs';
import { project } from './steps.mjs';

const dist = join(project, 'dist');

/** @type {import('esbuild').BuildOptions} */
const shared = {
  absWorkingDir: project,
  bundle: true,
  platform: 'node',
  target: 'node20.9',
  format: 'esm',
  packages: 'external',
  sourcemap: 'linked',
  logLevel: 'warning',
};

await mkdir(dist, { recursive: true });

const commandLine = join(dist, 'selvedge.js');
await build({
  ...shared,
  entryPoints: ['src/cli/main.ts'],
  outfile: commandLine,
  banner: { js: '#!/usr/bin/env node' },
});
await chmod(commandLine, 0o755);

const target = { folder: dist, isPackaged: false };
await bundleRooms(target);
await bundleExtension(target);
await bundlePanels(target);

const converter = join(dist, 'tooling', 'convert-models.js');
await build({ ...shared, entryPoints: ['src/tooling/convert-models.ts'], outfile: converter });
const { convertModels } = await import(pathToFileURL(converter).href);
await convertModels(project);
console.log(`built ${dist}`);
