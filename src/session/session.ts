import { existsSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { INPUT_LIMITS } from '../input-limits.ts';
import type { Manifest } from '../manifest/manifest.ts';
import { DEFAULT_PHOTOS } from '../manifest/manifest.ts';
import { parseManifest, readManifest } from '../manifest/parse.ts';
import type { PeopleFile } from '../people/people-file.ts';
import { EMPTY_PEOPLE_FILE, parsePeopleFile } from '../people/people-file.ts';
import { isPictureName } from '../photos/file-names.ts';
import type { SessionConfiguration } from './file-rules.ts';
import { configurationOf, RULE_CATALOGUE } from './file-rules.ts';
import type { PhotosFolder } from './photos-folder.ts';
import { findPhotosFolder, leadsInside } from './photos-folder.ts';
import type { Remedies } from './remedies.ts';
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
  /** In whose words its findings tell what to do. Absent: the command line's. */
  readonly remedies?: Remedies | undefined;
}

export interface OpenOptions {
  /** Where the photos are, when the user says so. */
  readonly photosFolder?: string | undefined;
  /** The people, when the caller has read them; else the people file is read. */
  readonly people?: PeopleFile;
  readonly remedies?: Remedies;
}

/**
 * Reads a manifest and its people file.
 * @throws SessionError when the manifest, or a people file that is there, cannot be read at all
 */
export async function openSession(path: string, options: OpenOptions = {}): Promise<Session> {
  refuseOtherFiles(path);
  const text = await readTextFile(path, INPUT_LIMITS.manifestBytes);
  return sessionOf(path, readManifest(text, RULE_CATALOGUE), options);
}

/**
 * A session whose manifest is being edited: the text is the editor's, not the disk's.
 * @throws SessionError when a people file that is there cannot be read at all, or there are too many frames
 */
export async function openSessionText(path: string, text: string, options: OpenOptions = {}): Promise<Session> {
  return sessionOf(path, parseManifest(text, RULE_CATALOGUE), options);
}

async function sessionOf(path: string, manifest: Manifest, options: OpenOptions): Promise<Session> {
  const { most } = INPUT_LIMITS.manifestFrames;
  if (manifest.frameCount > most) {
    throw new SessionError(`${path} has ${manifest.frameCount} frames, and ${most} are the most. Split the session.`);
  }
  const peoplePath = peoplePathOf(path);
  const photos = manifest.photos?.value ?? DEFAULT_PHOTOS;
  return {
    path,
    manifest,
    configuration: configurationOf(manifest),
    peoplePath,
    people: options.people ?? (await readPeopleFile(peoplePath)),
    photosFolder: await findPhotosFolder(path, photos, options.photosFolder),
    remedies: options.remedies,
  };
}

/** A picture or a people file in the manifest's place: said so, rather than what is wrong with its text. */
function refuseOtherFiles(path: string): void {
  const what = isPictureName(path) ? 'a picture' : /\.people\.jsonl$/i.test(path) ? 'a people file' : undefined;
  if (what === undefined || !existsSync(path)) return;
  throw new SessionError(`${path} is ${what}, not a manifest. Give the session's manifest, such as crops.yaml.`);
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
  return parsePeopleFile(await readTextFile(path, INPUT_LIMITS.peopleFileBytes));
}
