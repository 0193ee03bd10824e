import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { folderWith } from '../cli/workspace.ts';

/** Nothing of whoever runs the tests: neither their settings nor their name. */
const SURROUNDINGS = {
  ...process.env,
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
  GIT_AUTHOR_NAME: 'Somebody',
  GIT_AUTHOR_EMAIL: 'somebody@example.org',
  GIT_COMMITTER_NAME: 'Somebody',
  GIT_COMMITTER_EMAIL: 'somebody@example.org',
};

/** A real git repository in a temporary folder. */
export class TestRepository {
  readonly folder: string;

  constructor(files: Readonly<Record<string, string | Buffer>> = {}) {
    this.folder = folderWith(files);
    this.git('init', '--quiet', '--initial-branch=main');
    if (Object.keys(files).length > 0) this.commit('begin');
  }

  git(...given: string[]): string {
    return execFileSync('git', given, { cwd: this.folder, env: SURROUNDINGS, encoding: 'utf8', stdio: 'pipe' }).trim();
  }

  path(...names: string[]): string {
    return join(this.folder, ...names);
  }

  write(name: string, content: string | Buffer): void {
    mkdirSync(dirname(this.path(name)), { recursive: true });
    writeFileSync(this.path(name), content);
  }

  /** Everything that is in the working tree. */
  commit(message: string): string {
    this.git('add', '--all');
    this.git('commit', '--quiet', '--allow-empty', '-m', message);
    return this.git('rev-parse', 'HEAD');
  }
}
