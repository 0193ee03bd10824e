// @ts-check
/**
 * The licences of everything that is installed with the product: all runtime dependencies and theirs, of every platform.
 * Writes docs/licences.md; with `--check` it writes nothing and fails when that file is stale. Fails when a licence is
 * not one of those allowed here, or when what is installed says another one than the lock file.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { project } from './steps.mjs';

const ALLOWED = new Set(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD', 'Apache-2.0', 'CC0-1.0']);
/** A library of its own, linked while running and free to be replaced: allowed for libvips alone; see NOTICE. */
const ALLOWED_FOR_LIBVIPS = new Set(['LGPL-3.0-or-later']);

/** @type {{ packages: Record<string, { version?: string, license?: string, dev?: boolean }> }} */
const lock = JSON.parse(readFileSync(join(project, 'package-lock.json'), 'utf8'));
const runtime = Object.entries(lock.packages)
  .filter(([path, { dev }]) => path !== '' && dev !== true)
  .map(([path, { version = '', license = '' }]) => ({ path, name: nameOf(path), version, licence: license }))
  .sort((first, second) => (first.name < second.name ? -1 : first.name > second.name ? 1 : 0));

const faults = runtime.flatMap((dependency) => [...notAllowed(dependency), ...notInstalledSo(dependency)]);
const path = join(project, 'docs', 'licences.md');
const text = page();
if (process.argv.includes('--check')) {
  if (!existsSync(path) || readFileSync(path, 'utf8') !== text) {
    faults.push('docs/licences.md is stale: run node src/tooling/licences.mjs');
  }
} else {
  writeFileSync(path, text);
}
const notice = readFileSync(join(project, 'NOTICE'), 'utf8');
if (!notice.includes('docs/licences.md')) faults.push('NOTICE does not name docs/licences.md');
if (!notice.includes('LGPL-3.0-or-later')) faults.push('NOTICE does not name the licence of libvips');
for (const fault of faults) console.error(fault);
console.log(`licences: ${runtime.length} runtime dependencies, ${faults.length} faults`);
process.exit(faults.length > 0 ? 1 : 0);

/** @param {string} place in the lock file */
function nameOf(place) {
  return place.slice(place.lastIndexOf('node_modules/') + 'node_modules/'.length);
}

/**
 * Of an expression (SPDX 2.3, annex D) every part joined by AND must be allowed, of those joined by OR one.
 * @param {{ name: string, licence: string }} dependency
 */
function notAllowed({ name, licence }) {
  const isLibvips = name.startsWith('@img/sharp-');
  const isAllowed = (/** @type {string} */ one) => ALLOWED.has(one) || (isLibvips && ALLOWED_FOR_LIBVIPS.has(one));
  const parts = licence.replace(/[()]/g, '').split(' AND ');
  const isFine = licence !== '' && parts.every((part) => part.split(' OR ').some(isAllowed));
  return isFine ? [] : [`${name}: "${licence}" is not an allowed licence`];
}

/** @param {{ path: string, name: string, licence: string }} dependency */
function notInstalledSo({ path: place, name, licence }) {
  const file = join(project, place, 'package.json');
  if (!existsSync(file)) return [];
  const { license } = JSON.parse(readFileSync(file, 'utf8'));
  return license === licence ? [] : [`${name}: the lock file says "${licence}", the package itself "${license}"`];
}

function page() {
  const rows = runtime.map(({ name, version, licence }) => `| ${name} | ${version} | ${licence} |`);
  return [
    '# Licences of the runtime dependencies',
    '',
    'Written by `node src/tooling/licences.mjs` from the lock file, and checked by `npm run verify`. Packages for one platform only',
    'are installed on that platform. Models and notices: see NOTICE.',
    '',
    '| package | version | licence |',
    '| --- | --- | --- |',
    ...rows,
    '',
  ].join('\n');
}
