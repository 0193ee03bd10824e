// @ts-check
/** The whole job on the sample session: measure, check, fix, check again, and see. Works on a copy. */
import { createHash } from 'node:crypto';
import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { mustSucceed, node, project, selvedge } from './steps.mjs';

const began = Date.now();
const output = join(project, 'demo-output');
const session = join('demo-output', 'harbour');
const manifest = join(session, 'crops.yaml');

title('1. Install and build');
mustSucceed('Installing', node('src/tooling/install-if-missing.mjs'));
mustSucceed('Building', node('src/tooling/build.mjs'));

title('2. A copy of the sample session, without its people file');
rmSync(output, { recursive: true, force: true });
cpSync(join(project, 'sample-workspace', 'harbour'), join(project, session), { recursive: true });
rmSync(join(project, session, 'crops.people.jsonl'), { force: true });
const before = digests();
console.log(`${before.size} photos in ${join(session, 'proofs')}`);

title('3. Measure the people in the photos, with the real models');
mustSucceed('Measuring', selvedge(['measure', manifest]).code);

title('4. Check');
const first = tellCheck(selvedge(['check', '--format', 'json', manifest], { quiet: true }).stdout);

title('5. Fix');
selvedge(['fix', manifest]);

title('6. Check again');
const last = selvedge(['check', '--format', 'json', manifest], { quiet: true });
const second = tellCheck(last.stdout);

title('7. Pictures of what the fix did');
const page = join('demo-output', 'what-the-fix-did.html');
await drawPictures();

title('Where things are');
console.log(`what the fix did, to look at   ${page}`);
console.log(`the same pictures alone        ${join('demo-output', 'pictures')}`);
console.log(`manifest, with the new crops   ${manifest}`);
console.log(`people that were measured      ${join(session, 'crops.people.jsonl')}`);
const touched = [...digests()].filter(([name, digest]) => before.get(name) !== digest);
console.log(`photos                         ${touched.length === 0 ? 'every byte as before' : `CHANGED: ${touched}`}`);
console.log(`compare                        sample-workspace/harbour/crops.yaml is the manifest before the fix`);
console.log(
  `\nDone in ${Math.round((Date.now() - began) / 1000)} s; ${last.code === 0 ? 'the session is clean.' : 'the session is not clean.'}`,
);
process.exit(touched.length > 0 ? 1 : last.code);

/** @param {string} text */
function title(text) {
  console.log(`\n── ${text}`);
}

/**
 * What a check found, by rule.
 * @param {string} json
 */
function tellCheck(json) {
  /** @typedef {import('./demo-pictures.mjs').CheckedFrame} CheckedFrame */
  /** @typedef {import('./demo-pictures.mjs').Found} Found */
  /** @type {{ manifests: { findings: Found[], frames: CheckedFrame[] }[], summary: Record<string, number> }} */
  const { manifests, summary } = JSON.parse(json);
  const found = manifests.flatMap(({ findings, frames }) => [
    ...findings,
    ...frames.flatMap((frame) => frame.findings),
  ]);
  /** @type {Map<string, number>} */
  const counts = new Map();
  for (const { rule, severity, allowed } of found) {
    const key = `${severity.padEnd(8)} ${rule}`;
    if (allowed === undefined) counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  for (const [key, count] of [...counts].sort()) console.log(`${String(count).padStart(4)}  ${key}`);
  const sum = `${summary['frames']} frames: ${summary['errors']} errors, ${summary['warnings']} warnings, ${summary['infos']} hints`;
  console.log(sum);
  return { frames: manifests.flatMap(({ frames }) => frames), sum };
}

/** Imported here: before the first step nothing may be installed yet. */
async function drawPictures() {
  const { drawFixes } = await import('./demo-pictures.mjs');
  const { demoPage } = await import('./demo-page.mjs');
  const pictures = await drawFixes({
    before: first.frames,
    after: second.frames,
    photos: join(project, session, 'proofs'),
    to: join(output, 'pictures'),
  });
  writeFileSync(join(project, page), demoPage(pictures, { summaryBefore: first.sum, summaryAfter: second.sum }));
  console.log(`${pictures.length} frames drawn: the old crop dashed and thin, the new one thick`);
}

function digests() {
  const folder = join(project, session, 'proofs');
  return new Map(
    readdirSync(folder).map((name) => [
      name,
      createHash('sha256')
        .update(readFileSync(join(folder, name)))
        .digest('hex'),
    ]),
  );
}
