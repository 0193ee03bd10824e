import { existsSync } from 'node:fs';
import { dirname, resolve, sep } from 'node:path';
import { Repository, type FileAtCommit } from '../../history/repository.ts';
import { HistoryError } from '../../history/git.ts';
import { INPUT_LIMITS } from '../../input-limits.ts';
import { EMPTY_PEOPLE_FILE, parsePeopleFile, type PeopleFile } from '../../people/people-file.ts';
import { openSessionText, peoplePathOf, type OpenOptions, type Session } from '../session.ts';
import { SessionError } from '../session-error.ts';

/** A session as a commit has it. */
export interface PastSession {
  readonly session: Session;
  /** The manifest's name there, from the repository's root. */
  readonly name: string;
  /** The commit has no people file: bodies are taken from today's. */
  readonly hasOwnPeople: boolean;
}

/** What a revision says of a session. */
export interface Past {
  /** The revision's full hash. */
  readonly commit: string;
  /** The manifest's name today, from the repository's root. */
  readonly name: string;
  /** Absent: that commit had no such manifest. */
  readonly then?: PastSession;
}

/**
 * A session as a revision has it, without any file of the working tree; in a repository that has none, the path is from
 * its root.
 * @throws SessionError when there is no repository, no such revision, or no such manifest in it
 */
export async function openSessionAt(path: string, revision: string, options: OpenOptions): Promise<Session> {
  return explained(async () => {
    const repository = await repositoryOf(path);
    const commit = await repository.commitOf(revision);
    const name = await repository.nameOf(path);
    const manifest = await repository.fileAt(commit, name, INPUT_LIMITS.manifestBytes.most);
    if (!manifest) throw new SessionError(`${revision} has no file ${name}. Paths are from the repository’s root.`);
    const people = await peopleBeside(repository, commit, name);
    return openSessionText(path, textOf(manifest), { ...options, people: people ?? EMPTY_PEOPLE_FILE });
  });
}

/**
 * The manifest and the people file at a revision, under the names that they had there.
 * @param until the revision that the session was opened at; absent: it is today's
 * @throws SessionError when there is no repository or no such revision, or what it has cannot be read
 */
export async function pastOf(session: Session, revision: string, until?: string): Promise<Past> {
  return explained(async () => {
    const repository = await repositoryOf(session.path);
    const commit = await repository.commitOf(revision);
    const name = await repository.nameOf(session.path);
    const nameThen = await repository.nameAt(commit, name, until && (await repository.commitOf(until)));
    const manifest = nameThen && (await repository.fileAt(commit, nameThen, INPUT_LIMITS.manifestBytes.most));
    if (!manifest) return { commit, name };
    const people = await peopleBeside(repository, commit, manifest.path);
    return { commit, name, then: await pastSession(session, manifest, people) };
  });
}

/**
 * @throws SessionError when a manifest lies in no repository, or git refuses to look at it
 */
export async function requireRepository(path: string): Promise<void> {
  await explained(() => repositoryOf(path));
}

/** The repository around a manifest, whose folder need not be there when it is only in commits. */
function repositoryOf(path: string): Promise<Repository> {
  const folder = dirname(resolve(path));
  return Repository.around(existsSync(folder) ? folder : resolve('.'));
}

async function peopleBeside(repository: Repository, commit: string, name: string): Promise<PeopleFile | undefined> {
  const peopleName = peoplePathOf(name).split(sep).join('/');
  const people = await repository.fileAt(commit, peopleName, INPUT_LIMITS.peopleFileBytes.most);
  return people && parsePeopleFile(textOf(people));
}

/** What the history room could not do, as a failure of the call. */
async function explained<Result>(work: () => Promise<Result>): Promise<Result> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof HistoryError) throw new SessionError(error.message, { cause: error });
    throw error;
  }
}

async function pastSession(now: Session, manifest: FileAtCommit, people: PeopleFile | undefined): Promise<PastSession> {
  const opened = await openSessionText(now.path, textOf(manifest), { people: people ?? now.people });
  // Photographs are where they are today, wherever the old manifest looked for them.
  return {
    session: { ...opened, photosFolder: now.photosFolder },
    name: manifest.path,
    hasOwnPeople: people !== undefined,
  };
}

function textOf({ path, bytes }: FileAtCommit): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch (error) {
    throw new SessionError(`${path} is not UTF-8 text in that commit.`, { cause: error });
  }
}
