// @ts-check
/** The libraries that cannot be bundled: what of them runs on this platform goes into the package. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { project } from '../steps.mjs';
import { filesIn } from './files-in.mjs';

/**
 * @typedef {{ from: string, to: string }} PackageFile from: absolute; to: inside the extension's folder, with `/`
 * @typedef {{ name: string, version?: string, dependencies?: Record<string, string>, optionalDependencies?: Record<string, string> }} Description
 */

const RUNS = /\.(?:js|cjs|mjs|json|node|dylib|dll)$|\.so(?:\.\d+)*$/;
const LICENCE = /^(?:licen[cs]e|copying|notice)(?:\.\w+)?$/i;
/** Parts that are for building, for a shell or for other runtimes. */
const NEVER = /(?:^|\/)(?:install|script|src|test|tests|bin|docs|node_modules)\/|preload\.js$|\.d\.[cm]?ts$/;

/** What of a library is needed, where that is less than everything that runs. */
const ONLY = /** @type {Readonly<Record<string, RegExp>>} */ ({
  sharp: /^(?:package\.json|dist\/.*\.mjs)$/,
  'onnxruntime-node': new RegExp(`^(?:package\\.json|dist/.*|bin/napi-v6/${process.platform}/${process.arch}/.*)$`),
  'onnxruntime-common': /^(?:package\.json|dist\/cjs\/.*)$/,
  'onnxruntime-web': /^(?:package\.json|dist\/ort\.wasm\.bundle\.min\.mjs|dist\/ort-wasm-simd-threaded\.(?:wasm|mjs))$/,
});
/** For their install scripts alone, or bundled by them already. */
const NOT_NEEDED = new Set([
  'adm-zip',
  'global-agent',
  'flatbuffers',
  'guid-typescript',
  'long',
  'platform',
  'protobufjs',
]);
const ROOTS = ['sharp', 'onnxruntime-node', 'onnxruntime-web'];

/** @returns {string[]} names, sorted */
export function packagedLibraries() {
  /** @type {Set<string>} */
  const found = new Set();
  const take = (/** @type {string} */ name) => {
    if (found.has(name) || NOT_NEEDED.has(name)) return;
    if (!existsSync(folderOf(name))) return;
    found.add(name);
    const { dependencies, optionalDependencies } = describe(name);
    for (const other of Object.keys({ ...dependencies, ...optionalDependencies })) take(other);
  };
  for (const name of ROOTS) {
    if (!existsSync(folderOf(name))) throw new Error(`${name} is not installed. Run npm ci.`);
    take(name);
  }
  return [...found].sort();
}

/**
 * @param {string} name
 * @returns {PackageFile[]}
 */
export function filesOfLibrary(name) {
  const folder = folderOf(name);
  const only = ONLY[name];
  return filesIn(folder)
    .filter(
      (path) =>
        LICENCE.test(path) || (only ? only.test(path) && !isLeftOut(path) : RUNS.test(path) && !NEVER.test(path)),
    )
    .map((path) => ({ from: join(folder, path), to: `node_modules/${name}/${path}` }));
}

/** @param {string} path */
function isLeftOut(path) {
  return /\.map$|\.d\.[cm]?ts$/.test(path);
}

/** @param {string} name */
export function folderOf(name) {
  return join(project, 'node_modules', name);
}

/**
 * @param {string} name
 * @returns {Description & { license?: string }}
 */
export function describe(name) {
  return JSON.parse(readFileSync(join(folderOf(name), 'package.json'), 'utf8'));
}
