/**
 * Builds `dist/`: the command line, the workroom process and the converted models. Plain Node, so that it runs before
 * anything is built.
 */
import { chmod, mkdir } from 'node:fs/promises';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const project = join(dirname(fileURLToPath(import.meta.url)), '../..');
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

const commandLine = 'src/cli/main.ts';
if (existsSync(join(project, commandLine))) {
  const outfile = join(dist, 'selvedge.js');
  await build({ ...shared, entryPoints: [commandLine], outfile, banner: { js: '#!/usr/bin/env node' } });
  await chmod(outfile, 0o755);
}
await build({ ...shared, entryPoints: ['src/vision/workroom/main.ts'], outfile: join(dist, 'workroom.js') });

const converter = join(dist, 'tooling', 'convert-models.js');
await build({ ...shared, entryPoints: ['src/tooling/convert-models.ts'], outfile: converter });
const { convertModels } = await import(pathToFileURL(converter).href);
await convertModels(project);
console.log(`built ${dist}`);
