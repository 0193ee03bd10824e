/**
 * Builds `dist/`: the command line, the editor's extension, the processes that touch pixels, and the converted models.
 * Plain Node, so that it runs before anything is built.
 */
import { chmod, mkdir } from 'node:fs/promises';
import { existsSync } from 'node:fs';
import { builtinModules } from 'node:module';
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

await build({ ...shared, entryPoints: ['src/session/photo-room/main.ts'], outfile: join(dist, 'photo-room.js') });
await buildExtension();
for (const page of ['mat', 'sheet']) {
  await build({
    ...shared,
    entryPoints: [`src/panel/${page}/main.ts`],
    outfile: join(dist, `${page}.js`),
    platform: 'browser',
    target: 'es2022',
    format: 'iife',
    packages: 'bundle',
    sourcemap: false,
  });
}

const converter = join(dist, 'tooling', 'convert-models.js');
await build({ ...shared, entryPoints: ['src/tooling/convert-models.ts'], outfile: converter });
const { convertModels } = await import(pathToFileURL(converter).href);
await convertModels(project);
console.log(`built ${dist}`);

/** The editor loads CommonJS; the extension brings all it needs but the editor itself. */
async function buildExtension() {
  const { metafile } = await build({
    ...shared,
    entryPoints: ['src/editor/extension.ts'],
    outfile: join(dist, 'extension.cjs'),
    format: 'cjs',
    packages: 'bundle',
    external: ['vscode', 'sharp', 'exifr', 'onnxruntime-*'],
    metafile: true,
  });
  // An image library in the editor's process can bring the editor down: only code that is never run there may name it.
  const loaded = Object.values(metafile.outputs)
    .flatMap(({ imports }) => imports)
    .filter(({ external, kind, path }) => external && kind !== 'dynamic-import' && !/^(node:|vscode$)/.test(path));
  const foreign = loaded.filter(({ path }) => !builtinModules.includes(path));
  if (foreign.length > 0) {
    throw new Error(
      `The extension would load ${foreign.map(({ path }) => path).join(', ')} into the editor's process.`,
    );
  }
}
