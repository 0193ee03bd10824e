// @ts-check
/** Runs the tests and counts them: those of the core, then those of the editor. */
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { project, tool } from './steps.mjs';

/**
 * @typedef {{ name: string, status: string, assertionResults: { status: string, fullName: string }[] }} TestFile
 * @typedef {{ code: number, files: TestFile[] }} Run
 * @typedef {{ passed: number, failed: number, skipped: string[] }} Counts
 */

/** @returns {Counts} the names of what was skipped, because it was not shown */
export function runTests() {
  const core = run('core', []);
  const editor = run('editor', []);
  const broken = editor.files.filter(({ status }) => status === 'failed').map(({ name }) => name);
  if (broken.length === 0) return sum([core, editor]);
  // One test of a workbench that fails leaves to those after it what they did not expect: all of the file in a new one.
  console.log(`AGAIN, in a new workbench:\n${broken.map((name) => `  ${name}`).join('\n')}`);
  const again = run('editor', broken);
  const kept = editor.files.filter(({ name }) => !broken.includes(name));
  return sum([core, { code: 0, files: kept }, again]);
}

/**
 * @param {string} name
 * @param {readonly string[]} files all, when none is named
 * @returns {Run}
 */
function run(name, files) {
  const report = join(project, 'dist', 'tests', 'results.json');
  mkdirSync(join(project, 'dist', 'tests'), { recursive: true });
  rmSync(report, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const code = tool('vitest/vitest.mjs', ['run', '--project', name, ...reporters, ...files]);
  try {
    return { code, files: JSON.parse(readFileSync(report, 'utf8')).testResults };
  } catch {
    console.error('The tests left no report: they did not run to their end.');
    return { code: code || 1, files: [] };
  }
}

/**
 * @param {readonly Run[]} runs
 * @returns {Counts}
 */
function sum(runs) {
  /** @type {Counts} */
  const counts = { passed: 0, failed: 0, skipped: [] };
  for (const { code, files } of runs) {
    let failed = 0;
    for (const { status, assertionResults } of files) {
      // A file that could not even be loaded has no tests to count.
      if (status === 'failed' && assertionResults.length === 0) failed += 1;
      for (const test of assertionResults) {
        if (test.status === 'passed') counts.passed += 1;
        else if (test.status === 'failed') failed += 1;
        else counts.skipped.push(test.fullName);
      }
    }
    // What went wrong outside of any test.
    counts.failed += failed === 0 && code !== 0 ? 1 : failed;
  }
  return counts;
}
