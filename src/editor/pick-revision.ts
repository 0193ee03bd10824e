import type { QuickPickItem } from 'vscode';
import { QuickPickItemKind, window } from 'vscode';
import { REF_KINDS, type GitCommit, type GitRef, type GitRepository } from './git-extension.ts';
import { messageOf, type Log } from './log.ts';
import { plainLabel } from './plain-text.ts';

interface RevisionItem extends QuickPickItem {
  /** Absent for a heading. */
  readonly revision?: string;
}

const MOST_COMMITS = 50;
const MOST_REFS = 100;
const LAST_COMMIT: RevisionItem = {
  label: 'The last commit',
  description: 'what is not committed yet',
  revision: 'HEAD',
};

/**
 * Lets somebody choose a revision: the last commits, branches, tags, or any that is typed.
 * @param repository whose commits are offered as soon as it is known
 * @returns undefined when nobody chose
 */
export async function pickRevision(
  repository: Promise<GitRepository | undefined>,
  log: Log,
): Promise<string | undefined> {
  const pick = window.createQuickPick<RevisionItem>();
  pick.title = 'Compare the crops with an earlier revision';
  pick.placeholder = 'A commit, a branch or a tag; or type any revision, such as HEAD~3';
  pick.matchOnDescription = true;
  let known: readonly RevisionItem[] = [LAST_COMMIT];
  const show = (): void => {
    pick.items = [...typed(pick.value), ...known];
  };
  show();
  pick.onDidChangeValue(show);
  pick.show();
  pick.busy = true;
  void choices(repository, log).then((items) => {
    known = [LAST_COMMIT, ...items];
    pick.busy = false;
    show();
  });
  return new Promise((resolve) => {
    pick.onDidAccept(() => {
      resolve(pick.selectedItems[0]?.revision);
      pick.hide();
    });
    pick.onDidHide(() => {
      resolve(undefined);
      pick.dispose();
    });
  });
}

function typed(value: string): RevisionItem[] {
  const revision = value.trim();
  if (revision === '') return [];
  return [{ label: plainLabel(revision, 120), description: 'as typed', alwaysShow: true, revision }];
}

/** A list that cannot be had is left out: what is typed works without. */
async function choices(known: Promise<GitRepository | undefined>, log: Log): Promise<RevisionItem[]> {
  try {
    const repository = await known;
    if (!repository) return [];
    const commits = await repository.log({ maxEntries: MOST_COMMITS });
    const refs = (await repository.getRefs({ sort: 'committerdate' })).slice(0, MOST_REFS);
    const { branch, remoteBranch, tag } = REF_KINDS;
    return [
      ...headed('Commits', commits.map(commitItem)),
      ...headed('Branches', named(refs, [branch, remoteBranch])),
      ...headed('Tags', named(refs, [tag])),
    ];
  } catch (error) {
    log.warn(`git: ${messageOf(error)}`);
    return [];
  }
}

function headed(label: string, items: RevisionItem[]): RevisionItem[] {
  return items.length === 0 ? [] : [{ label, kind: QuickPickItemKind.Separator }, ...items];
}

function commitItem({ hash, message, authorDate }: GitCommit): RevisionItem {
  const description = [hash.slice(0, 10), authorDate?.toISOString().slice(0, 10)].filter((part) => part !== undefined);
  const title = message.split('\n', 1)[0]!;
  return { label: plainLabel(title, 120) || 'no message', description: description.join(' · '), revision: hash };
}

function named(refs: readonly GitRef[], kinds: readonly number[]): RevisionItem[] {
  return refs.flatMap(({ name, type }) =>
    name === undefined || !kinds.includes(type) ? [] : [{ label: plainLabel(name, 120), revision: name }],
  );
}
