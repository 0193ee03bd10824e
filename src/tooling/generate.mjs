// @ts-check
/**
 * Writes what comes from the rules' own data: the table in the README, the settings on each rule's page, the page of
 * the manifest's keys, the JSON Schema. With `--check` it writes nothing and fails when something is stale.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { importTypeScript } from './bundle.mjs';
import { project } from './steps.mjs';

const { generatedFiles } = await importTypeScript('src/tooling/generated.ts');
const isCheck = process.argv.includes('--check');
const stale = [];
for (const [path, text] of await generatedFiles(read)) {
  if (read(path) === text) continue;
  stale.push(path);
  if (!isCheck) {
    mkdirSync(dirname(join(project, path)), { recursive: true });
    writeFileSync(join(project, path), text);
  }
}
if (stale.length === 0) console.log('generated files: up to date');
else console.log(`${isCheck ? 'stale (run npm run generate)' : 'written'}: ${stale.join(', ')}`);
process.exit(isCheck && stale.length > 0 ? 1 : 0);

/**
 * @param {string} path
 * @returns {string | undefined}
 */
function read(path) {
  try {
    return readFileSync(join(project, path), 'utf8');
  } catch {
    return undefined;
  }
}
