import { execFile } from 'node:child_process';
import { chmodSync, copyFileSync, existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { beforeAll, expect, test } from 'vitest';
import { parse } from 'yaml';
import { TestRepository } from '../history/repository.ts';
import { PROJECT_FOLDER } from '../truth/support/project.ts';
import { CLEAN, folderWith, HEAD, KNEES, peopleFile } from './workspace.ts';

/*
 * The shell steps of docs/ci are run as they stand, with the two systems' own commands (npm install, gh, curl) replaced by
 * ones that note how they were called.
 */
const docs = (name: string): string => join(PROJECT_FOLDER, 'docs', 'ci', name);

/** A folder for the path: the command line as it is in src/, and the noting commands. */
let bin = '';

beforeAll(async () => {
  bin = folderWith({});
  // The bundle looks for its packages above itself.
  symlinkSync(join(PROJECT_FOLDER, 'node_modules'), join(bin, 'node_modules'));
  await build({
    absWorkingDir: PROJECT_FOLDER,
    entryPoints: ['src/cli/main.ts'],
    outfile: join(bin, 'selvedge.mjs'),
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
  });
  const command = (name: string, body: string): void => {
    writeFileSync(join(bin, name), `#!/bin/sh\n${body}\n`);
    chmodSync(join(bin, name), 0o755);
  };
  command('selvedge', `exec "${process.execPath}" "${bin}/selvedge.mjs" "$@"`);
  for (const name of ['npm', 'gh', 'curl']) command(name, `echo "${name} $*" >> "$NOTES"`);
});

interface Ran {
  readonly code: number;
  readonly said: string;
}

function sh(folder: string, script: string, env: Readonly<Record<string, string>>, shell = 'bash'): Promise<Ran> {
  const surroundings = {
    ...process.env,
    PATH: `${bin}:${process.env['PATH'] ?? ''}`,
    NOTES: join(folder, 'notes'),
    ...env,
  };
  const given = shell === 'bash' ? ['-eo', 'pipefail', '-c', script] : ['-c', script];
  return new Promise((resolve) => {
    execFile(shell, given, { cwd: folder, env: surroundings }, (error, stdout, stderr) => {
      resolve({ code: error === null ? 0 : Number(error.code), said: stdout + stderr });
    });
  });
}

const TWO = `${HEAD}  - photo: a.jpg\n    crop: ${CLEAN}\n\n  - photo: b.jpg\n    crop: ${CLEAN}\n`;
const PEOPLE = peopleFile({ 'a.jpg': 'standing', 'b.jpg': 'standing' });

function shoot(): { made: TestRepository; base: string } {
  const made = new TestRepository({
    'shoot/crops.yaml': TWO,
    'shoot/crops.people.jsonl': PEOPLE,
    '.gitattributes': readFileSync(docs('gitattributes'), 'utf8'),
    '.gitignore': 'notes\n',
  });
  return { made, base: made.git('rev-parse', 'HEAD') };
}

function spoil(made: TestRepository): void {
  made.write('shoot/crops.yaml', TWO.replace(`b.jpg\n    crop: ${CLEAN}`, `b.jpg\n    crop: ${KNEES}`));
}

interface Step {
  readonly name?: string;
  readonly run?: string;
}

test('the workflow: a change that brings warnings fails, and leaves SARIF, sheet, comment and review', async () => {
  const workflow = parse(readFileSync(docs('github.yml'), 'utf8')) as {
    env: Record<string, string>;
    jobs: Record<string, { steps: Step[] }>;
  };
  const { made, base } = shoot();
  spoil(made);
  made.commit('tighter');
  const env = { MANIFEST: workflow.env['MANIFEST']!, SELVEDGE_PACKAGE: 'x.tgz', BASE: base, NUMBER: '7' };
  const codes: Record<string, number> = {};
  for (const { name, run } of workflow.jobs['check']!.steps) {
    if (run !== undefined) codes[name!] = (await sh(made.folder, run, env)).code;
  }
  expect(codes).toEqual({ Install: 0, Check: 1, Review: 0, Comment: 0 });
  const notes = readFileSync(made.path('notes'), 'utf8').trim().split('\n');
  expect(notes).toEqual([
    'npm install --global --ignore-scripts x.tgz',
    'gh pr comment 7 --body-file out/review/review.md --edit-last --create-if-none',
  ]);
  expect(JSON.parse(readFileSync(made.path('out/crops.sarif'), 'utf8'))).toMatchObject({ version: '2.1.0' });
  expect(readFileSync(made.path('out/review/review.md'), 'utf8')).toContain('`b.jpg`');
  expect(readFileSync(made.path('out/contact-sheet.html'), 'utf8')).toContain('</html>');

  const [, , third] = workflow.jobs['shard']!.steps;
  const merge = workflow.jobs['merge']!.steps.at(-1)!;
  for (const shard of ['1', '2', '3'])
    expect((await sh(made.folder, third!.run!, { ...env, SHARD: shard })).code).toBe(0);
  expect((await sh(made.folder, merge.run!, env)).code).toBe(1);
  const whole = await sh(made.folder, 'selvedge check "$MANIFEST" --format json', env);
  expect(readFileSync(made.path('crops.json'), 'utf8')).toBe(whole.said);
});

test('the pipeline: the same, and its three parallel jobs merge to the whole', async () => {
  const pipeline = parse(readFileSync(docs('gitlab.yml'), 'utf8')) as Record<string, { script?: string[]; after_script?: string[]; variables?: unknown }>; // prettier-ignore
  const { made, base } = shoot();
  spoil(made);
  made.commit('tighter');
  const env = { MANIFEST: 'shoot/crops.yaml', BASE: base, COMMENT_TOKEN: 'x', CI_API_V4_URL: 'https://host', CI_PROJECT_ID: '1', CI_MERGE_REQUEST_IID: '2' }; // prettier-ignore
  const check = pipeline['check crops']!;
  expect((await sh(made.folder, check.script!.join('\n'), env)).code).toBe(1);
  expect((await sh(made.folder, check.after_script!.join('\n'), env)).code).toBe(0);
  expect(existsSync(made.path('out/review/review.html'))).toBe(true);
  for (const index of ['1', '2', '3']) {
    const given = { ...env, CI_NODE_INDEX: index, CI_NODE_TOTAL: '3' };
    expect((await sh(made.folder, pipeline['check a third']!.script!.join('\n'), given)).code).toBe(0);
  }
  await sh(made.folder, pipeline['merge thirds']!.script!.join('\n'), env);
  const whole = await sh(made.folder, 'selvedge check "$MANIFEST" --format json', env);
  expect(readFileSync(made.path('crops.json'), 'utf8')).toBe(whole.said);
});

test('the hook stops a commit that brings warnings, and lets others through', async () => {
  const { made } = shoot();
  mkdirSync(made.path('.git/hooks'), { recursive: true });
  copyFileSync(docs('pre-commit'), made.path('.git/hooks/pre-commit'));
  chmodSync(made.path('.git/hooks/pre-commit'), 0o755);
  const commit = 'git add -A && git -c user.name=S -c user.email=s@example.org commit --quiet -m change';
  spoil(made);
  const stopped = await sh(made.folder, commit, {}, 'sh');
  expect(stopped.code).not.toBe(0);
  expect(stopped.said).toContain('The lower edge cuts the left knee');
  made.write('shoot/crops.yaml', TWO.replace('selvedge: 1', 'selvedge: 1\nsession: Ein Abend'));
  mkdirSync(made.path('späte Stunde'));
  made.write('späte Stunde/x y.crops.yaml', TWO);
  made.write('späte Stunde/x y.crops.people.jsonl', PEOPLE);
  expect(await sh(made.folder, commit, {}, 'sh')).toMatchObject({ code: 0 });
});

test('two branches that changed different frames and measured different photos merge without a conflict', () => {
  const { made } = shoot();
  const line = (photo: string): string => peopleFile({ [photo]: 'standing' });
  const change = (branch: string, photo: string, fresh: string): void => {
    made.git('checkout', '--quiet', '-b', branch, 'main');
    made.write('shoot/crops.yaml', TWO.replace(`${photo}\n    crop: ${CLEAN}`, `${photo}\n    crop: ${KNEES}`));
    made.write('shoot/crops.people.jsonl', PEOPLE + line(fresh));
    made.commit(branch);
  };
  change('one', 'a.jpg', 'c.jpg');
  change('two', 'b.jpg', 'd.jpg');
  made.git('merge', '--quiet', '--no-edit', 'one');
  expect(readFileSync(made.path('shoot/crops.yaml'), 'utf8')).toBe(TWO.replaceAll(CLEAN, KNEES));
  const people = readFileSync(made.path('shoot/crops.people.jsonl'), 'utf8').trim().split('\n');
  expect(people.map((text) => (JSON.parse(text) as { photo: string }).photo).sort()).toEqual(['a.jpg', 'b.jpg', 'c.jpg', 'd.jpg']); // prettier-ignore
});

test('a pointer to the very photo that was measured is as good as the photo; another pointer is not', async () => {
  const digest = `sha256:${'a'.repeat(64)}`;
  // As the open specification has it (git-lfs, docs/spec.md).
  const pointer = (oid: string): string => `version https://git-lfs.github.com/spec/v1\noid ${oid}\nsize 12345\n`;
  const folder = folderWith({
    'crops.yaml': TWO,
    'crops.people.jsonl': peopleFile({ 'a.jpg': 'standing', 'b.jpg': 'standing' }, digest),
    'a.jpg': pointer(digest),
    'b.jpg': pointer(`sha256:${'b'.repeat(64)}`),
  });
  const { code, said } = await sh(folder, 'selvedge check crops.yaml', {}, 'sh');
  expect(code).toBe(1);
  expect(said).not.toContain('a.jpg');
  expect(said).toContain('b.jpg: The file is only a pointer to large-file storage');
});
