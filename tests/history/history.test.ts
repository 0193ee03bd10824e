import { chmodSync, existsSync, symlinkSync } from 'node:fs';
import { expect, test } from 'vitest';
import { HistoryError } from '../../src/history/git.ts';
import { Repository } from '../../src/history/repository.ts';
import { folderWith } from '../cli/workspace.ts';
import { TestRepository } from './repository.ts';

const MOST = 1_000_000;

async function textAt(repository: Repository, commit: string, name: string): Promise<string | undefined> {
  return (await repository.fileAt(commit, name, MOST))?.bytes.toString('utf8');
}

test('a file at a revision: a branch, a tag, a hash, a way back', async () => {
  const made = new TestRepository({ 'crops.yaml': 'one\n' });
  made.git('tag', 'first');
  made.git('branch', 'old/branch');
  made.write('crops.yaml', 'two\n');
  const last = made.commit('second');
  const repository = await Repository.around(made.folder);
  for (const revision of ['first', 'old/branch', 'HEAD~1', 'HEAD^', 'main@{1}', `${last.slice(0, 12)}~`]) {
    expect(await textAt(repository, await repository.commitOf(revision), 'crops.yaml'), revision).toBe('one\n');
  }
  expect(await textAt(repository, await repository.commitOf('HEAD'), 'crops.yaml')).toBe('two\n');
  expect(await textAt(repository, await repository.commitOf('HEAD'), 'nothing.yaml')).toBeUndefined();
});

test.each([
  '--upload-pack=touch pwned',
  '--output=pwned',
  '-n1',
  '',
  'main:crops.yaml',
  ':/begin',
  'main..HEAD',
  '^HEAD',
  'HEAD\nHEAD',
  'HEAD\u0000',
  'ma*',
  'x'.repeat(300),
])('a hostile revision is refused before git sees it: %j', async (revision) => {
  const made = new TestRepository({ 'crops.yaml': 'one\n' });
  const repository = await Repository.around(made.folder);
  await expect(repository.commitOf(revision)).rejects.toThrow(/is no revision/);
  expect(existsSync(made.path('pwned'))).toBe(false);
});

test.each(['nowhere', '$(touch pwned)', '`touch pwned`', 'HEAD; touch pwned', 'deadbeef'])(
  'a revision that is none is said so, and no shell reads it: %j',
  async (revision) => {
    const made = new TestRepository({ 'crops.yaml': 'one\n' });
    const repository = await Repository.around(made.folder);
    await expect(repository.commitOf(revision)).rejects.toThrow(HistoryError);
    await expect(repository.commitOf(revision)).rejects.toThrow(/There is no commit/);
    expect(existsSync(made.path('pwned'))).toBe(false);
  },
);

test('a commit that was not fetched: the remedy is to fetch it', async () => {
  const made = new TestRepository({ 'crops.yaml': 'one\n' });
  const first = made.git('rev-parse', 'HEAD');
  made.write('crops.yaml', 'two\n');
  made.commit('second');
  const copy = folderWith({});
  made.git('clone', '--quiet', '--depth', '1', `file://${made.folder}`, `${copy}/shallow`);
  const repository = await Repository.around(`${copy}/shallow`);
  await expect(repository.commitOf(first)).rejects.toThrow(/depth 0/);
});

test('outside any repository', async () => {
  await expect(Repository.around(folderWith({}))).rejects.toThrow(/is in no git repository/);
});

test('a repository without a working tree', async () => {
  const made = new TestRepository({ 'deep/crops.yaml': 'one\n' });
  made.git('clone', '--quiet', '--bare', made.folder, `${made.folder}/bare.git`);
  const repository = await Repository.around(`${made.folder}/bare.git`);
  expect(repository.isBare).toBe(true);
  expect(await textAt(repository, await repository.commitOf('main'), 'deep/crops.yaml')).toBe('one\n');
});

const LINES = Array.from({ length: 40 }, (_, line) => `line ${line} of a manifest\n`);

test('a file that was moved: committed, staged, twice, and changed much on the way', async () => {
  const made = new TestRepository({ 'old name.yaml': LINES.join('') });
  const first = made.git('rev-parse', 'HEAD');
  made.git('mv', 'old name.yaml', 'staged.yaml');
  const repository = await Repository.around(made.folder);
  expect(await repository.nameAt(first, 'staged.yaml')).toBe('old name.yaml');
  made.commit('moved');
  expect(await repository.nameAt(first, 'staged.yaml')).toBe('old name.yaml');
  made.write('staged.yaml', LINES.map((line, at) => (at % 3 === 0 ? 'another\n' : line)).join(''));
  made.commit('changed a third');
  made.write('deep/place.yaml', LINES.map((line, at) => (at % 3 === 0 ? 'another\n' : at % 3 === 1 ? 'third\n' : line)).join('')); // prettier-ignore
  made.git('rm', '--quiet', '--cached', 'staged.yaml');
  made.git('rm', '--quiet', '-f', '--ignore-unmatch', 'staged.yaml');
  made.git('clean', '-fdq', 'staged.yaml');
  made.commit('moved again, and changed the next third');
  expect(await repository.nameAt(first, 'deep/place.yaml')).toBe('old name.yaml');
  expect(await repository.nameAt(first, 'unheard-of.yaml')).toBeUndefined();
});

test('names that git could take for something else', async () => {
  const names = ['-n.yaml', ':(glob)*.yaml', '*.yaml', 'ein "Name"\t.yaml', '桟橋.yaml'];
  const made = new TestRepository(Object.fromEntries(names.map((name) => [name, `${name}\n`])));
  const repository = await Repository.around(made.folder);
  const commit = await repository.commitOf('HEAD');
  for (const name of names) {
    expect(await repository.nameOf(made.path(name))).toBe(name);
    expect(await textAt(repository, commit, name)).toBe(`${name}\n`);
  }
});

test('a link in a commit is no file, and a large file is refused', async () => {
  const made = new TestRepository({ 'crops.yaml': 'one\n' });
  symlinkSync('/etc/hostname', made.path('link.yaml'));
  const commit = made.commit('a link');
  const repository = await Repository.around(made.folder);
  expect(await repository.fileAt(commit, 'link.yaml', MOST)).toBeUndefined();
  await expect(repository.fileAt(commit, 'crops.yaml', 3)).rejects.toThrow(/has 4 bytes in .* and 3 are the most/);
});

test('a repository that wants programs run gets none run', async () => {
  const made = new TestRepository({ 'crops.yaml': LINES.join(''), '.gitattributes': '*.yaml filter=own diff=own\n' });
  const first = made.git('rev-parse', 'HEAD');
  made.git('mv', 'crops.yaml', 'moved.yaml');
  made.commit('moved');
  made.write('run.sh', `#!/bin/sh\ntouch ${made.path('pwned')}\n`);
  chmodSync(made.path('run.sh'), 0o755);
  const program = made.path('run.sh');
  for (const key of [
    'core.fsmonitor',
    'diff.external',
    'diff.own.textconv',
    'filter.own.clean',
    'core.pager',
    'gpg.program',
    'core.sshCommand',
  ])
    // prettier-ignore
    made.git('config', key, program);
  made.git('config', 'log.showSignature', 'true');
  const repository = await Repository.around(made.folder);
  const commit = await repository.commitOf(first);
  expect(await repository.nameAt(commit, 'moved.yaml')).toBe('crops.yaml');
  expect(await textAt(repository, commit, 'crops.yaml')).toBe(LINES.join(''));
  expect(existsSync(made.path('pwned'))).toBe(false);
});
