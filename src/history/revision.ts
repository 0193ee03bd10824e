import { git, GitRefusal, HistoryError } from './git.ts';

const LONGEST = 256;
/** Control characters, and what names no commit: a path in one, a pattern. */
const FORBIDDEN = /[\u0000-\u001f\u007f:?*[\\]/;

/**
 * The commit that a revision of the user's means: a branch, a tag, `HEAD~3`, `main@{yesterday}`, a hash.
 * @param folder inside the repository
 * @returns its full hash
 * @throws HistoryError when it is no revision, or none of this repository
 */
export async function commitOf(folder: string, revision: string): Promise<string> {
  const shown = JSON.stringify(revision.slice(0, 80));
  if (!isRevision(revision)) {
    throw new HistoryError(
      `${shown} is no revision. Give one commit: a branch, a tag, a hash, or such as HEAD~3 (no range, no path).`,
    );
  }
  try {
    const answer = await git(folder, ['rev-parse', '--verify', '--quiet', `${revision}^{commit}`]);
    const commit = answer.toString('utf8').trim();
    if (/^[0-9a-f]{40,64}$/.test(commit)) return commit;
  } catch (error) {
    if (!(error instanceof GitRefusal)) throw error;
  }
  const remedy = await remedyFor(folder);
  throw new HistoryError(`There is no commit ${shown} in the repository of this manifest. ${remedy}`);
}

/** Nothing that git could take for an option, a range, a path in a commit, or more than one word of a command. */
function isRevision(text: string): boolean {
  if (text === '' || text.length > LONGEST || text.startsWith('-') || text.startsWith('^')) return false;
  return !text.includes('..') && !FORBIDDEN.test(text);
}

/** Continuous integration often fetches the last commit alone. */
async function remedyFor(folder: string): Promise<string> {
  const isShallow = await git(folder, ['rev-parse', '--is-shallow-repository']).catch(() => undefined);
  return isShallow?.toString('utf8').trim() === 'true'
    ? 'Only a part of the history was fetched here: fetch all of it (git fetch --unshallow, or depth 0 in the workflow).'
    : 'git log shows those that there are.';
}
