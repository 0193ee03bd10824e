import { existsSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { writeManifest } from '../manifest/write.ts';
import { choosePictures } from '../photos/file-names.ts';
import { readRating } from '../photos/rating.ts';
import { inParallel } from './in-parallel.ts';
import { causeOf, SessionError } from './session-error.ts';
import { writeTextFile } from './text-file.ts';

export interface InitOptions {
  /** The pictures are a finished portfolio, already cropped. */
  readonly finished?: boolean | undefined;
  /** Only pictures with at least this many stars. */
  readonly minRating?: number | undefined;
}

/** What `initSession` made. */
export interface InitReport {
  readonly path: string;
  /** One frame each. */
  readonly pictures: readonly string[];
  /** Raw files beside a rendered picture of the same name. */
  readonly rawBesidePicture: number;
  readonly ratedLower: number;
  /** Left out because a rating was asked for and they have none. */
  readonly unrated: number;
  /** Left out because a manifest cannot name them (control characters, backslashes). */
  readonly unnameable: readonly string[];
}

const MANIFEST_NAME = 'crops.yaml';
const RATINGS_AT_ONCE = 8;
/** A finished picture is looked at as it is: written out, so that a later fix shows as a change of numbers. */
const WHOLE_PHOTO = { x: 0, y: 0, w: 1, h: 1 };
/** What a manifest cannot name; the schema's own pattern for photos. */
const UNNAMEABLE = /[\\\u0000-\u001f\u007f]/;

/**
 * Writes a manifest with one frame per picture into a folder. The pictures are only read.
 * @throws SessionError when the folder cannot be read, has no pictures, or has a manifest already
 */
export async function initSession(folder: string, options: InitOptions = {}): Promise<InitReport> {
  const path = join(folder, MANIFEST_NAME);
  if (existsSync(path))
    throw new SessionError(`${path} is there already and stays as it is. Move it away to begin anew.`);
  const found = choosePictures(await namesIn(folder));
  if (found.pictures.length === 0) {
    throw new SessionError(`${folder} has no pictures (JPEG, PNG, TIFF, WebP, AVIF, HEIF or camera raw files).`);
  }
  const unnameable = found.pictures.filter((name) => UNNAMEABLE.test(name));
  const named = found.pictures.filter((name) => !UNNAMEABLE.test(name));
  const rated = await rateAll(folder, named, options.minRating);
  if (rated.pictures.length === 0) {
    throw new SessionError(`No picture in ${folder} has ${options.minRating ?? 0} stars or more; nothing was written.`);
  }
  const frames = rated.pictures.map((photo) => ({ photo, ...(options.finished === true && { crop: WHOLE_PHOTO }) }));
  await writeTextFile(path, writeManifest({ session: basename(resolve(folder)), aspect: 'original', frames }));
  return { path, ...rated, rawBesidePicture: found.rawBesidePicture.length, unnameable };
}

/** All file names under the folder, with `/` between folders, in the order of a contact sheet (2 before 10). */
async function namesIn(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch((error: unknown) => {
    throw new SessionError(`${folder} cannot be read: ${causeOf(error)}.`, { cause: error });
  });
  const collator = new Intl.Collator('en', { numeric: true });
  const root = resolve(folder);
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => resolve(entry.parentPath, entry.name).slice(root.length + (root.endsWith('/') ? 0 : 1)))
    .map((name) => (process.platform === 'win32' ? name.replaceAll('\\', '/') : name))
    .filter((name) => !name.split('/').some((part) => part.startsWith('.')))
    .sort((first, second) => collator.compare(first, second) || (first < second ? -1 : 1));
}

async function rateAll(
  folder: string,
  pictures: readonly string[],
  least: number | undefined,
): Promise<Pick<InitReport, 'pictures' | 'ratedLower' | 'unrated'>> {
  if (least === undefined) return { pictures, ratedLower: 0, unrated: 0 };
  const ratings = await inParallel(pictures, RATINGS_AT_ONCE, (name) => readRating(join(folder, name)));
  return {
    pictures: pictures.filter((_, index) => (ratings[index] ?? -Infinity) >= least),
    ratedLower: ratings.filter((rating) => rating !== undefined && rating < least).length,
    unrated: ratings.filter((rating) => rating === undefined).length,
  };
}
