// @ts-check
/**
 * Known weaknesses (high and critical) in what is installed. Fails for those alone: where the registry does not answer such
 * questions, or there is no network, it ends with 77: not done, which says nothing about the code.
 */
import { spawnSync } from 'node:child_process';
import { project } from './steps.mjs';

const isWindows = process.platform === 'win32';
const { stdout } = spawnSync('npm', ['audit', '--audit-level=high', '--json'], {
  cwd: project,
  encoding: 'utf8',
  shell: isWindows,
  timeout: 120_000,
  maxBuffer: 1 << 26,
});
const counts = countsIn(stdout);
if (counts === undefined) {
  console.log('audit: NOT DONE, the registry does not answer it here');
  process.exit(77);
}
console.log(`audit: ${counts.critical} critical, ${counts.high} high`);
process.exit(counts.critical + counts.high > 0 ? 1 : 0);

/**
 * @param {string | null} text
 * @returns {{ critical: number, high: number } | undefined}
 */
function countsIn(text) {
  try {
    return JSON.parse(text ?? '').metadata?.vulnerabilities;
  } catch {
    return undefined;
  }
}
