import type { Event, Uri } from 'vscode';
import { extensions, workspace } from 'vscode';

/** What is used here of the interface that the editor's own git extension gives to others, version 1. */
export interface GitInterface {
  /** `uninitialized` until it has looked for repositories in the opened folders. */
  readonly state: 'uninitialized' | 'initialized';
  readonly onDidChangeState: Event<GitInterface['state']>;
  getRepository(uri: Uri): GitRepository | null;
}

interface GitExtension {
  readonly enabled: boolean;
  getAPI(version: 1): GitInterface;
}

/** A repository that the editor knows. */
export interface GitRepository {
  log(options: { readonly maxEntries: number }): Promise<readonly GitCommit[]>;
  getRefs(query: { readonly sort: 'committerdate' }): Promise<readonly GitRef[]>;
}

export interface GitCommit {
  readonly hash: string;
  readonly message: string;
  readonly authorDate?: Date;
}

/** The numbers of that interface. */
export const REF_KINDS = { branch: 0, remoteBranch: 1, tag: 2 } as const;

export interface GitRef {
  readonly type: number;
  readonly name?: string;
}

/**
 * What the editor's own git extension offers.
 * @throws Error when git is switched off in the editor
 */
export async function gitInterface(uri: Uri): Promise<GitInterface> {
  const git = extensions.getExtension<GitExtension>('vscode.git');
  const active = git && (git.isActive ? git.exports : await git.activate());
  // Git that is switched off while the editor runs is so for the setting alone.
  if (!active?.enabled || workspace.getConfiguration('git', uri).get('enabled') === false) {
    throw new Error(
      'Git is switched off in this editor, so there is nothing to compare with. Switch it on (setting git.enabled), or use selvedge review on the command line.',
    );
  }
  return active.getAPI(1);
}

/**
 * The repository around a file as the editor knows it, once the editor has looked for repositories; undefined when it has
 * not opened it (one that begins over the opened folder, as a rule).
 */
export async function knownRepository(git: GitInterface, uri: Uri): Promise<GitRepository | undefined> {
  await initialized(git);
  return git.getRepository(uri) ?? undefined;
}

function initialized(git: GitInterface): Promise<void> {
  return new Promise((resolve) => {
    if (git.state === 'initialized') {
      resolve();
      return;
    }
    const listener = git.onDidChangeState((state) => {
      if (state !== 'initialized') return;
      listener.dispose();
      resolve();
    });
  });
}
