import { gitFields, GitRefusal } from './git.ts';

/**
 * What a file was called in an older commit when that has no file of its present name: by comparing that commit with the
 * index, then by following its name back through the commits since.
 * @param until the commit that has the file under `name`; `HEAD` also stands for what is in the index
 * @returns undefined when nothing was moved there, as far as git can tell
 */
export async function nameAt(
  folder: string,
  commit: string,
  name: string,
  until = 'HEAD',
): Promise<string | undefined> {
  return (await movedBetween(folder, commit, name, until)) ?? (await movedAlong(folder, commit, name, until));
}

const MOVES = ['--find-renames', '--diff-filter=R', '--name-status', '-z', '--no-ext-diff', '--no-textconv'];

/** The index says of today what a commit would have: nothing of the working tree is read, so no filter runs. */
async function movedBetween(folder: string, commit: string, name: string, until: string): Promise<string | undefined> {
  const staged = until !== 'HEAD' ? [] : await moves(folder, ['diff-index', '--cached', ...MOVES, commit]);
  const found = staged.find(({ to }) => to === name);
  if (found) return found.from;
  const committed = await moves(folder, ['diff-tree', '-r', ...MOVES, commit, until]);
  return committed.find(({ to }) => to === name)?.from;
}

/** A file that was moved, and changed much since, is like its old self from one commit to the next. */
async function movedAlong(folder: string, commit: string, name: string, until: string): Promise<string | undefined> {
  const range = `${commit}..${until}`;
  const all = await moves(folder, ['log', '--follow', '--format=', ...MOVES, range, '--', name]);
  const first = all.reduce((current, { from, to }) => (to === current ? from : current), name);
  return first === name ? undefined : first;
}

interface Move {
  readonly from: string;
  readonly to: string;
}

/** Fields `R100`, old name, new name; newest first where there are several commits. */
async function moves(folder: string, given: readonly string[]): Promise<Move[]> {
  const fields = await gitFields(folder, given).catch((error: unknown) => {
    if (error instanceof GitRefusal) return [];
    throw error;
  });
  const found: Move[] = [];
  for (let at = 0; at + 2 < fields.length; at++) {
    if (!/^\n?R\d+$/.test(fields[at]!)) continue;
    found.push({ from: fields[at + 1]!, to: fields[at + 2]! });
    at += 2;
  }
  return found;
}
