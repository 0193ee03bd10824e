import { correctPeople, type Correction } from '../people/correct.ts';
import { formatPeopleFile, formatPeopleLine, type PeopleFile } from '../people/people-file.ts';
import type { PhotoPeople } from '../people/person.ts';
import { alone } from './alone.ts';
import { SessionError } from './session-error.ts';
import { readPeopleFile } from './session.ts';
import { writeTextFile } from './text-file.ts';

/** One photo's line of the people file before and after somebody corrected it. */
export interface CorrectedLine {
  readonly photo: string;
  /** Undefined when the photo had none. */
  readonly before: string | undefined;
  readonly after: string | undefined;
}

const ATTEMPTS = 5;

/**
 * Corrects the people of one photo in the people file, as the file is at that moment: what others wrote meanwhile is
 * kept, and all other lines keep their characters.
 * @param photo with its size, for a photo that the file does not have yet
 * @returns what was written; undefined when the correction is about a person whom the file does not have (any more)
 * @throws SessionError when the file cannot be read or written; it is as it was then
 */
export async function correctPhoto(
  peoplePath: string,
  photo: Pick<PhotoPeople, 'photo' | 'size'>,
  correction: Correction,
): Promise<CorrectedLine | undefined> {
  return changeLine(peoplePath, photo.photo, (file) => {
    const known = file.photos.get(photo.photo);
    const people = correctPeople(known?.people ?? [], correction);
    return people && formatPeopleLine({ ...photo, ...known, people });
  });
}

/**
 * Takes a correction back.
 * @returns false when the line has been changed since, and was left as it is
 * @throws SessionError when the file cannot be read or written
 */
export async function takeBack(peoplePath: string, { photo, before, after }: CorrectedLine): Promise<boolean> {
  const written = await changeLine(peoplePath, photo, (file) =>
    file.lines.get(photo) === after ? (before ?? NO_LINE) : undefined,
  );
  return written !== undefined;
}

const NO_LINE = '';

/** @param change the photo's new line, `NO_LINE` for none; undefined to write nothing */
async function changeLine(
  path: string,
  photo: string,
  change: (file: PeopleFile) => string | undefined,
): Promise<CorrectedLine | undefined> {
  return alone(path, () => changed(path, photo, change));
}

async function changed(
  path: string,
  photo: string,
  change: (file: PeopleFile) => string | undefined,
): Promise<CorrectedLine | undefined> {
  for (let attempt = 1; attempt <= ATTEMPTS; attempt++) {
    const file = await readPeopleFile(path);
    const line = change(file);
    if (line === undefined) return undefined;
    const lines = new Map(file.lines);
    if (line === NO_LINE) lines.delete(photo);
    else lines.set(photo, line);
    const text = formatPeopleFile({ ...file, lines });
    // Whoever has written since it was read is not written over.
    const now = formatPeopleFile(await readPeopleFile(path));
    if (now !== formatPeopleFile(file)) continue;
    await writeTextFile(path, text);
    return { photo, before: file.lines.get(photo), after: line === NO_LINE ? undefined : line };
  }
  throw new SessionError(`${path} is being written by somebody else all the time; nothing was changed. Try again.`);
}
