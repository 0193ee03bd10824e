// @ts-check
/** The bundles that the product consists of. Plain Node, so that it runs before anything is built. */
import { existsSync, readdirSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { build } from 'esbuild';
import { project } from './steps.mjs';

/** Libraries with native code or files of their own; a bundle finds them in `node_modules`. */
export const NATIVE = ['sharp', 'onnxruntime-node', 'onnxruntime-web/wasm'];

/** @type {import('esbuild').BuildOptions} */
const SHARED = {
  absWorkingDir: project,
  bundle: true,
  platform: 'node',
  target: 'node20.9',
  format: 'esm',
  logLevel: 'warning',
  metafile: true,
};

/**
 * @typedef {{ folder: string, isPackaged: boolean }} Target isPackaged: small, without maps, with every library in it that
 *   a bundle can hold; otherwise libraries are found in `node_modules`
 * @typedef {import('esbuild').Metafile} Metafile
 */

/**
 * The processes that touch pixels.
 * @param {Target} target
 * @returns {Promise<Metafile>}
 */
export async function bundleRooms({ folder, isPackaged }) {
  const { metafile } = await build({
    ...SHARED,
    ...finish(isPackaged),
    entryPoints: { workroom: 'src/vision/workroom/main.ts', 'photo-room': 'src/session/photo-room/main.ts' },
    outdir: folder,
    ...(isPackaged
      ? // What is bundled may be written in the old way, for CommonJS.
        { external: NATIVE, banner: { js: COMMON_JS } }
      : { packages: 'external' }),
  });
  return /** @type {Metafile} */ (metafile);
}

const COMMON_JS = [
  "import { createRequire } from 'node:module';",
  "import { fileURLToPath } from 'node:url';",
  'const require = createRequire(import.meta.url);',
  'const __filename = fileURLToPath(import.meta.url);',
].join('\n');

/**
 * The extension. The editor loads CommonJS; the extension brings all it needs but the editor itself. The editor starts with
 * a small entry, which loads the rest when there is a manifest.
 * @param {Target} target
 * @returns {Promise<Metafile>}
 */
export async function bundleExtension({ folder, isPackaged }) {
  const { metafile } = await build({
    ...SHARED,
    ...finish(isPackaged),
    entryPoints: { extension: 'src/editor/entry.ts', editor: 'src/editor/extension.ts' },
    outdir: folder,
    outExtension: { '.js': '.cjs' },
    format: 'cjs',
    external: ['vscode', 'exifr', ...NATIVE],
  });
  // An image library in the editor's process can bring the editor down: only code that is never run there may name it.
  const loaded = Object.values(/** @type {Metafile} */ (metafile).outputs)
    .flatMap(({ imports }) => imports)
    .filter(({ external, kind, path }) => external && kind !== 'dynamic-import' && !/^(node:|vscode$)/.test(path));
  const foreign = loaded.filter(({ path }) => !builtinModules.includes(path));
  if (foreign.length > 0) {
    throw new Error(
      `The extension would load ${foreign.map(({ path }) => path).join(', ')} into the editor's process.`,
    );
  }
  return /** @type {Metafile} */ (metafile);
}

/**
 * The code of each webview: `src/panel/NAME/main.ts` becomes `NAME.js`.
 * @param {Target} target
 * @returns {Promise<Metafile>}
 */
export async function bundlePanels({ folder, isPackaged }) {
  const { metafile } = await build({
    ...SHARED,
    ...finish(isPackaged),
    entryPoints: Object.fromEntries(panels().map((name) => [name, `src/panel/${name}/main.ts`])),
    outdir: folder,
    platform: 'browser',
    target: 'es2022',
    format: 'iife',
    sourcemap: false,
  });
  return /** @type {Metafile} */ (metafile);
}

/** The webviews, by their names. */
export function panels() {
  const folder = join(project, 'src', 'panel');
  return readdirSync(folder).filter((name) => existsSync(join(folder, name, 'main.ts')));
}

/**
 * @param {boolean} isPackaged
 * @returns {import('esbuild').BuildOptions}
 */
function finish(isPackaged) {
  // The notices of what is bundled are in a file of their own.
  return isPackaged ? { minify: true, legalComments: 'none' } : { sourcemap: 'linked' };
}
