// @ts-check
/** Running other programs, for the scripts of this folder. Plain Node: this runs before anything is installed. */
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const project = join(dirname(fileURLToPath(import.meta.url)), '../..');

/** The command line that `build.mjs` makes. */
export const commandLine = join(project, 'dist', 'selvedge.js');

/**
 * Runs a Node script of the project and shows what it says.
 * @param {string} script absolute, or relative to the project
 * @param {readonly string[]} [given] its arguments
 * @returns {number} its exit code
 */
export function node(script, given = []) {
  const { status } = spawnSync(process.execPath, [join(project, script), ...given], { cwd: project, stdio: 'inherit' });
  return status ?? 1;
}

/**
 * Runs a program that a package brings.
 * @param {string} path under node_modules
 * @param {readonly string[]} given
 * @returns {number} its exit code
 */
export function tool(path, given) {
  return node(join('node_modules', path), given);
}

/**
 * Runs the built command line.
 * @param {readonly string[]} given
 * @param {{ quiet?: boolean, folder?: string }} [options] quiet: the output is only returned
 * @returns {{ code: number, stdout: string }}
 */
export function selvedge(given, { quiet = false, folder = project } = {}) {
  const { status, stdout } = spawnSync(process.execPath, [commandLine, ...given], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'inherit'],
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (!quiet) process.stdout.write(stdout);
  return { code: status ?? 1, stdout };
}

/**
 * Stops the whole script when a step failed.
 * @param {string} step
 * @param {number} code
 */
export function mustSucceed(step, code) {
  if (code === 0) return;
  console.error(`\n${step} failed (exit code ${code}).`);
  process.exit(code);
}
