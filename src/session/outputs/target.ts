import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { refuseHomeSign } from '../home-sign.ts';
import { makeFolder } from '../make-folder.ts';
import { manifestWithPhotosIn } from '../photos-of-others.ts';
import { isInside, type PhotosFolder } from '../photos-folder.ts';
import { realPlace } from '../real-place.ts';
import { causeOf, SessionError } from '../session-error.ts';
import { requireWritable } from '../text-file.ts';
import { RECORD_NAME } from './record.ts';

/**
 * Makes the folder that pictures are rendered into, if it is not there.
 * @throws SessionError when it lies in the photos folder, has the photos of another session, is no folder, or cannot be
 * written
 */
export async function openTarget(to: string, photosFolder: PhotosFolder): Promise<string> {
  if (to.trim() === '') throw new SessionError('The folder to render into has no name. Give one with --to.');
  refuseHomeSign(to);
  const target = resolve(to);
  const place = await realPlace(target);
  if ('path' in photosFolder && isInside(place, await realPlace(photosFolder.path))) {
    throw new SessionError(`${to} is in the photos folder, where only photos are. Name a folder beside it.`);
  }
  // A folder that was rendered into before may be somebody's session by now: the finished pictures, looked at again.
  const other = existsSync(join(target, RECORD_NAME)) ? undefined : await manifestWithPhotosIn(place);
  if (other !== undefined) {
    throw new SessionError(`${to} has the photos of another session (${other}). Name a folder where no photos are.`);
  }
  try {
    await makeFolder(target);
  } catch (error) {
    throw new SessionError(`${to} cannot be made: ${causeOf(error)}. Nothing was begun.`, { cause: error });
  }
  await requireWritable(join(target, RECORD_NAME));
  return target;
}

/**
 * Makes the folder of a file in the target.
 * @throws SessionError when it leads elsewhere or cannot be made
 */
export async function makeFolderFor(target: string, file: string): Promise<void> {
  const folder = dirname(join(target, file));
  try {
    await makeFolder(folder);
  } catch (error) {
    throw new SessionError(`${folder} cannot be made: ${causeOf(error)}.`, { cause: error });
  }
  if (isInside(await realPlace(folder), await realPlace(target))) return;
  throw new SessionError(`${folder} is a link that leads out of ${target}. Remove it, or render into another folder.`);
}
