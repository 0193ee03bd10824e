// @ts-check
/**
 * Everything that must hold before a change is kept: install, build, generated files, types, lint, format, licences, known
 * weaknesses, tests, spoilt sessions. The last line sums it up; each check counts as one, each test as one.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { mustSucceed, node, project } from './steps.mjs';

mustSucceed('Installing', node('src/tooling/install-if-missing.mjs'));
mustSucceed('Building', node('src/tooling/build.mjs'));

/** What a check ends with that could not be done here (the convention of Automake's test drivers). */
const NOT_DONE = 77;
const total = { passed: 0, failed: 0, skipped: 0 };

check('generated files are up to date', () => node('src/tooling/generate.mjs', ['--check']));
check('types', () => tool('typescript/bin/tsc', ['--noEmit']));
for (const page of ['mat', 'page', 'review', 'sheet']) {
  check(`types of the panel: ${page}`, () => tool('typescript/bin/tsc', ['--noEmit', '-p', `src/panel/${page}`]));
}
check('lint and house plan', () => tool('eslint/bin/eslint.js', ['.', '--max-warnings', '0']));
check('format', () => tool('prettier/bin/prettier.cjs', ['--check', '--log-level', 'warn', '.']));
check('licences of the runtime dependencies', () => node('src/tooling/licences.mjs', ['--check']));
check('known weaknesses', () => node('src/tooling/audit.mjs'));
runTests();
check('two minutes of spoilt sessions', () => node('src/tooling/fuzz.mjs', ['--seconds', '120']));

console.log(`${total.passed} passed, ${total.failed} failed, ${total.skipped} skipped`);
process.exit(total.failed > 0 ? 1 : 0);

/**
 * @param {string} name
 * @param {() => number} run
 */
function check(name, run) {
  const code = run();
  const outcome = code === 0 ? 'passed' : code === NOT_DONE ? 'skipped' : 'failed';
  console.log(`${outcome === 'passed' ? outcome : outcome.toUpperCase()}  ${name}`);
  total[outcome] += 1;
}

/**
 * @param {string} path under node_modules
 * @param {readonly string[]} given
 */
function tool(path, given) {
  return (
    spawnSync(process.execPath, [join(project, 'node_modules', path), ...given], { cwd: project, stdio: 'inherit' })
      .status ?? 1
  );
}

function runTests() {
  const results = join(project, 'dist', 'tests', 'results.json');
  mkdirSync(join(project, 'dist', 'tests'), { recursive: true });
  rmSync(results, { force: true });
  const code = tool('vitest/vitest.mjs', [
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${results}`,
  ]);
  const report = readReport(results);
  total.passed += report.numPassedTests;
  total.skipped += report.numPendingTests + report.numTodoTests;
  // A test file that could not even be loaded has no tests to count.
  const broken = report.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0);
  const failed = report.numFailedTests + broken.length;
  total.failed += failed === 0 && code !== 0 ? 1 : failed;
  const skipped = report.testResults.flatMap((file) =>
    file.assertionResults
      .filter(({ status }) => status !== 'passed' && status !== 'failed')
      .map(({ fullName }) => fullName),
  );
  if (skipped.length > 0)
    console.log(`SKIPPED, so not shown by this run:\n${skipped.map((name) => `  ${name}`).join('\n')}`);
}

/**
 * @typedef {{ status: string, assertionResults: { status: string, fullName: string }[] }} TestFile
 * @typedef {{ numPassedTests: number, numFailedTests: number, numPendingTests: number, numTodoTests: number, testResults: TestFile[] }} Report
 * @param {string} path
 * @returns {Report}
 */
function readReport(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    console.error('The tests left no report: they did not run to their end.');
    return { numPassedTests: 0, numFailedTests: 1, numPendingTests: 0, numTodoTests: 0, testResults: [] };
  }
}
