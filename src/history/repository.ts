import { realpath } from 'node:fs/promises';
import { basename, dirname, join, posix, relative, resolve, sep } from 'node:path';
import { git, gitFields, GitRefusal, HistoryError } from './git.ts';
import { nameAt } from './names.ts';
import { commitOf } from './revision.ts';

/** A text of one commit. */
export interface FileAtCommit {
  /** From the repository's root, with `/`. */
  readonly path: string;
  readonly bytes: Buffer;
}

/** A git repository that is only ever read. Paths in it are from its root, with `/`. */
export class Repository {
  /** Where git is asked: the root of the working tree, or a repository without one. */
  readonly #folder: string;
  readonly isBare: boolean;

  private constructor(folder: string, isBare: boolean) {
    this.#folder = folder;
    this.isBare = isBare;
  }

  /**
   * The repository that a folder lies in.
   * @throws HistoryError when it lies in none, or git refuses to look at it
   */
  static async around(folder: string): Promise<Repository> {
    try {
      const bare = (await git(folder, ['rev-parse', '--is-bare-repository'])).toString('utf8').trim() === 'true';
      if (bare) return new Repository(resolve(folder), true);
      const root = (await git(folder, ['rev-parse', '--show-toplevel'])).toString('utf8').replace(/\r?\n$/, '');
      return new Repository(root, false);
    } catch (error) {
      if (!(error instanceof GitRefusal)) throw error;
      const isNone = error.message.includes('not a git repository');
      throw new HistoryError(
        isNone
          ? `${folder} is in no git repository, so there is nothing to compare with.`
          : `git does not look at the repository of ${folder}: ${error.message.split('\n')[0]!}`,
        { cause: error },
      );
    }
  }

  commitOf(revision: string): Promise<string> {
    return commitOf(this.#folder, revision);
  }

  /** A file of the working tree as the repository names it; without a working tree, paths are from its root already. */
  async nameOf(path: string): Promise<string> {
    if (this.isBare) return posix.normalize(path);
    // The folder's links are followed, the file's own are not: it has its name in the repository.
    const folder = dirname(resolve(path));
    const real = join(await realpath(folder).catch(() => folder), basename(path));
    return relative(await realpath(this.#folder), real)
      .split(sep)
      .join('/');
  }

  /**
   * What a file of today was called in an older commit: its own name if that has it, else the name it was moved from.
   * @param until the commit that has the file under its name; absent: today
   * @returns undefined when the commit has no such file
   */
  async nameAt(commit: string, name: string, until?: string): Promise<string | undefined> {
    if (await this.#entry(commit, name)) return name;
    return nameAt(this.#folder, commit, name, until);
  }

  /**
   * A file as a commit has it; a link or a folder is none.
   * @param most bytes
   * @throws HistoryError when it is larger
   */
  async fileAt(commit: string, name: string, most: number): Promise<FileAtCommit | undefined> {
    const hash = await this.#entry(commit, name);
    if (hash === undefined) return undefined;
    const size = Number((await git(this.#folder, ['cat-file', '-s', hash])).toString('utf8'));
    if (size > most) {
      throw new HistoryError(`${name} has ${size} bytes in ${commit.slice(0, 10)}, and ${most} are the most.`);
    }
    return { path: name, bytes: await git(this.#folder, ['cat-file', 'blob', hash], most + 1) };
  }

  async #entry(commit: string, name: string): Promise<string | undefined> {
    const fields = await gitFields(this.#folder, ['ls-tree', '-z', '--full-tree', commit, '--', name]);
    const entry = fields.find((field) => field.slice(field.indexOf('\t') + 1) === name);
    return /^100\d{3} blob ([0-9a-f]+)\t/.exec(entry ?? '')?.[1];
  }
}
