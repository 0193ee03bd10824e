// @ts-check
/** Installs what package-lock.json lists, when it is not there yet or not in those versions. Plain Node. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { mustSucceed, project } from './steps.mjs';

/** @typedef {{ packages?: Record<string, { version?: string, optional?: boolean }> }} Lock */

if (isInstalled()) console.log('packages: up to date');
else {
  console.log('packages: installing (npm ci)');
  mustSucceed('npm ci', install());
}

function isInstalled() {
  const installed = readLock('node_modules/.package-lock.json')?.packages;
  const asked = readLock('package-lock.json')?.packages;
  if (!installed || !asked) return false;
  // Optional packages are for other systems where they are not there.
  return Object.entries(asked).every(
    ([path, { version, optional }]) =>
      path === '' || (installed[path] ? installed[path].version === version : optional === true),
  );
}

/**
 * @param {string} name
 * @returns {Lock | undefined}
 */
function readLock(name) {
  try {
    return JSON.parse(readFileSync(join(project, name), 'utf8'));
  } catch {
    return undefined;
  }
}

function install() {
  const given = ['ci', '--include=dev'];
  const npm = process.env['npm_execpath'];
  const options = /** @type {const} */ ({ cwd: project, stdio: 'inherit' });
  const result = npm?.endsWith('.js')
    ? spawnSync(process.execPath, [npm, ...given], options)
    : spawnSync('npm', given, { ...options, shell: process.platform === 'win32' });
  return result.status ?? 1;
}
