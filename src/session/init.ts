import { existsSync } from 'node:fs';
import { homedir } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import { WHOLE_PHOTO } from '../geometry/shapes.ts';
import { INPUT_LIMITS } from '../input-limits.ts';
import { isPhotoName } from '../manifest/schema-frame.ts';
import { writeManifest } from '../manifest/write.ts';
import { choosePictures, isPictureName } from '../photos/file-names.ts';
import { readRating } from '../photos/rating.ts';
import { MANIFEST_NAME } from './find-manifest.ts';
import { filesUnder, targetOfLink, type FolderFiles, type LinkTarget } from './folder-files.ts';
import { inParallel } from './in-parallel.ts';
import { renderedUnder } from './outputs/rendered-under.ts';
import { realPlace } from './real-place.ts';
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
  readonly rawBesidePicture: readonly string[];
  readonly ratedLower: readonly string[];
  /** Left out because a rating was asked for and they have none. */
  readonly unrated: readonly string[];
  /** Left out because a manifest cannot name them: control characters, backslashes, no UTF-8. */
  readonly unnameable: readonly string[];
  /** Written by `render`, into folders below this one. */
  readonly rendered: readonly string[];
  /** Folders below that cannot be looked into. */
  readonly closedFolders: readonly string[];
  /** Links that were left out, by where they lead. */
  readonly links: LinksByTarget;
}

export type LinksByTarget = Readonly<Record<LinkTarget, readonly string[]>>;

const RATINGS_AT_ONCE = 8;
const LINKS_AT_ONCE = 8;

/**
 * Writes a manifest with one frame per photo into a folder. The photos are only read.
 * @throws SessionError when the folder is the whole disk or the user's home, cannot be read, has no photos, or has a manifest already
 */
export async function initSession(folder: string, options: InitOptions = {}): Promise<InitReport> {
  await refuseWholeDisk(folder);
  const path = join(folder, MANIFEST_NAME);
  if (existsSync(path))
    throw new SessionError(`${path} is there already and stays as it is. Move it away to begin anew.`);
  const { files, links, closedFolders } = await namesIn(folder);
  const found = choosePictures(files);
  const linked = await sortLinks(folder, links);
  const rendered = await renderedUnder(folder, found.pictures);
  const pictures = found.pictures.filter((name) => !rendered.has(name));
  if (pictures.length === 0) throw new SessionError(`${folder} has no photos${noPicturesHint(linked, rendered.size)}`);
  const named = new Set(pictures.filter((name) => canBeNamed(folder, name)));
  const unnameable = pictures.filter((name) => !named.has(name));
  const rated = await rateAll(folder, [...named], options.minRating);
  refuseCount(folder, rated.pictures.length, options);
  // A finished picture is looked at as it is: written out, so that a later fix shows as a change of numbers.
  const frames = rated.pictures.map((photo) => ({ photo, ...(options.finished === true && { crop: WHOLE_PHOTO }) }));
  await writeTextFile(path, writeManifest({ session: basename(resolve(folder)), aspect: 'original', frames }));
  return {
    path,
    ...rated,
    rawBesidePicture: found.rawBesidePicture,
    unnameable,
    rendered: [...rendered],
    closedFolders,
    links: linked,
  };
}

/** Nobody means every picture of a machine or of a person: a session is one shoot. */
async function refuseWholeDisk(folder: string): Promise<void> {
  const place = await realPlace(resolve(folder));
  const isRoot = dirname(place) === place;
  if (!isRoot && place !== (await realPlace(homedir()))) return;
  const what = isRoot ? 'the whole disk' : 'your whole home folder';
  throw new SessionError(
    `${folder} is ${what}. Name the folder with the photos of one shoot, such as ${join(folder, 'pictures', 'boardwalk')}; nothing was written.`,
  );
}

/** Bytes that are no UTF-8 come from the file system as U+FFFD, and a file of such a name is not there. */
function canBeNamed(folder: string, name: string): boolean {
  return isPhotoName(name) && (!name.includes('\ufffd') || existsSync(join(folder, name)));
}

function noPicturesHint(linked: LinksByTarget, rendered: number): string {
  const others = linked.outside.length + linked.folder.length;
  const hints = [
    others > 0 && `Links are not followed (${others} here): put the photos themselves into it.`,
    rendered > 0 && `What render wrote is left out (${rendered} here): to begin with these, name their folder.`,
  ].filter((hint) => hint !== false);
  return [' (JPEG, PNG, TIFF, WebP, AVIF, HEIF or camera raw files).', ...hints].join(' ');
}

function refuseCount(folder: string, count: number, { minRating }: InitOptions): void {
  const { most } = INPUT_LIMITS.manifestFrames;
  if (count === 0 && minRating === undefined) {
    throw new SessionError(`No photo in ${folder} has a name that a manifest can carry; nothing was written.`);
  }
  if (count === 0) throw new SessionError(`No photo in ${folder} has ${minRating} stars or more; nothing was written.`);
  if (count > most) {
    throw new SessionError(
      `${folder} has ${count} photos, and ${most} frames are the most in a manifest. Begin a session in each folder below; nothing was written.`,
    );
  }
}

async function namesIn(folder: string): Promise<FolderFiles> {
  return filesUnder(folder).catch((error: unknown) => {
    throw new SessionError(`${folder} cannot be read: ${causeOf(error)}.`, { cause: error });
  });
}

/** Links to pictures are not taken: what leads out of the folder is not read, what stays inside is there already. */
async function sortLinks(folder: string, links: readonly string[]): Promise<LinksByTarget> {
  const targets = await inParallel(links, LINKS_AT_ONCE, async (name) => {
    const target = await targetOfLink(folder, name);
    return target === 'folder' || isPictureName(name) ? target : undefined;
  });
  const ofKind = (kind: LinkTarget): string[] => links.filter((_, index) => targets[index] === kind);
  return { outside: ofKind('outside'), inside: ofKind('inside'), folder: ofKind('folder'), nowhere: ofKind('nowhere') };
}

async function rateAll(
  folder: string,
  pictures: readonly string[],
  least: number | undefined,
): Promise<Pick<InitReport, 'pictures' | 'ratedLower' | 'unrated'>> {
  if (least === undefined) return { pictures, ratedLower: [], unrated: [] };
  const ratings = await inParallel(pictures, RATINGS_AT_ONCE, (name) => readRating(join(folder, name)));
  const rated = (isWanted: (rating: number | undefined) => boolean): string[] =>
    pictures.filter((_, index) => isWanted(ratings[index]));
  return {
    pictures: rated((rating) => rating !== undefined && rating >= least),
    ratedLower: rated((rating) => rating !== undefined && rating < least),
    unrated: rated((rating) => rating === undefined),
  };
}
