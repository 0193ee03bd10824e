import { existsSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { Manifest } from '../manifest/manifest.ts';
import { DEFAULT_PHOTOS } from '../manifest/manifest.ts';
import { parseManifest } from '../manifest/parse.ts';
import type { PeopleFile } from '../people/people-file.ts';
import { EMPTY_PEOPLE_FILE, parsePeopleFile } from '../people/people-file.ts';
import type { SessionConfiguration } from './file-rules.ts';
import { configurationOf, RULE_CATALOGUE } from './file-rules.ts';
import type { PhotosFolder } from './photos-folder.ts';
import { findPhotosFolder, leadsInside } from './photos-folder.ts';
import { SessionError } from './session-error.ts';
import { readTextFile } from './text-file.ts';

/** One manifest with what belongs to it, read once. */
export interface Session {
  /** As the user gave it. */
  readonly path: string;
  readonly manifest: Manifest;
  readonly configuration: SessionConfiguration;
  readonly peoplePath: string;
  readonly people: PeopleFile;
  readonly photosFolder: PhotosFolder;
}

export interface OpenOptions {
  /** Where the photos are, when the user says so. */
  readonly photosFolder?: string | undefined;
  /** The people, when the caller has read them; else the people file is read. */
  readonly people?: PeopleFile;
}

/**
 * Reads a manifest and its people file.
 * @throws SessionError when the manifest, or a people file that is there, cannot be read at all
 */
export async function openSession(path: string, options: OpenOptions = {}): Promise<Session> {
  return openSessionText(path, await readTextFile(path), options);
}

/**
 * A session whose manifest is being edited: the text is the editor's, not the disk's.
 * @throws SessionError when a people file that is there cannot be read at all
 */
export async function openSessionText(path: string, text: string, options: OpenOptions = {}): Promise<Session> {
  const manifest = parseManifest(text, RULE_CATALOGUE);
  const peoplePath = peoplePathOf(path);
  const photos = manifest.photos?.value ?? DEFAULT_PHOTOS;
  return {
    path,
    manifest,
    configuration: configurationOf(manifest),
    peoplePath,
    people: options.people ?? (await readPeopleFile(peoplePath)),
    photosFolder: await findPhotosFolder(path, photos, options.photosFolder),
  };
}

/** `crops.yaml` → `crops.people.jsonl` beside it. */
export function peoplePathOf(manifestPath: string): string {
  return join(dirname(manifestPath), `${basename(manifestPath).replace(/\.ya?ml$/i, '')}.people.jsonl`);
}

/** The people file, empty when there is none yet. */
export async function readPeopleFile(path: string): Promise<PeopleFile> {
  if (!existsSync(path)) return EMPTY_PEOPLE_FILE;
  if (!(await leadsInside(path, dirname(path)))) {
    throw new SessionError(`${path} is a link that leads out of the session's folder. Put the file itself there.`);
  }
  return parsePeopleFile(await readTextFile(path));
}
