// @ts-check
/**
 * Everything that must hold before a change is kept: install, build, generated files, types, lint, format, licences, known
 * weaknesses, tests, spoilt sessions. The last line sums it up; each check counts as one, each test as one.
 */
import { runTests } from './run-tests.mjs';
import { mustSucceed, node, tool } from './steps.mjs';

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
addTests();
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

function addTests() {
  const { passed, failed, skipped } = runTests();
  total.passed += passed;
  total.failed += failed;
  total.skipped += skipped.length;
  if (skipped.length > 0)
    console.log(`SKIPPED, so not shown by this run:\n${skipped.map((name) => `  ${name}`).join('\n')}`);
}
