// @ts-check
/** Runs TypeScript of the project: Node 20 does not read it itself. */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { project } from './steps.mjs';

/**
 * Bundles one TypeScript file into `dist/tooling` and imports it.
 * @param {string} source relative to the project
 * @returns {Promise<Record<string, any>>}
 */
export async function importTypeScript(source) {
  return import(await bundle(source));
}

/**
 * Bundles one TypeScript file into `dist/tooling`.
 * @param {string} source relative to the project
 * @returns {Promise<string>} the address to import it by
 */
export async function bundle(source) {
  const outfile = join(project, 'dist', 'tooling', source.replaceAll('/', '-').replace(/\.ts$/, '.js'));
  await build({
    absWorkingDir: project,
    entryPoints: [source],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20.9',
    format: 'esm',
    packages: 'external',
    logLevel: 'warning',
  });
  return pathToFileURL(outfile).href;
}
