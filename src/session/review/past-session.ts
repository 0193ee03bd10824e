import { dirname, resolve, sep } from 'node:path';
import { Repository, type FileAtCommit } from '../../history/repository.ts';
import { HistoryError } from '../../history/git.ts';
import { INPUT_LIMITS } from '../../input-limits.ts';
import { parsePeopleFile, type PeopleFile } from '../../people/people-file.ts';
import { openSessionText, peoplePathOf, type Session } from '../session.ts';
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
 * The manifest and the people file at a revision, under the names that they had there.
 * @throws SessionError when there is no repository or no such revision, or what it has cannot be read
 */
export async function pastOf(session: Session, revision: string): Promise<Past> {
  try {
    const repository = await Repository.around(dirname(resolve(session.path)));
    const commit = await repository.commitOf(revision);
    const name = await repository.nameOf(session.path);
    const nameThen = await repository.nameAt(commit, name);
    const manifest = nameThen && (await repository.fileAt(commit, nameThen, INPUT_LIMITS.manifestBytes.most));
    if (!manifest) return { commit, name };
    const peopleName = peoplePathOf(manifest.path).split(sep).join('/');
    const people = await repository.fileAt(commit, peopleName, INPUT_LIMITS.peopleFileBytes.most);
    return { commit, name, then: await pastSession(session, manifest, people && parsePeopleFile(textOf(people))) };
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
