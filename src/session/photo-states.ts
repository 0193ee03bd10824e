import { existsSync } from 'node:fs';
import type { Size } from '../geometry/shapes.ts';
import type { PhotoPeople } from '../people/person.ts';
import { PhotoError } from '../photos/photo-error.ts';
import { readPhotoSize } from '../photos/size.ts';
import { breathe } from './breathe.ts';
import { Digests } from './digests.ts';
import { inParallel } from './in-parallel.ts';
import type { PhotosFolder } from './photos-folder.ts';
import { pathInside } from './photos-folder.ts';

/** What the disk says about one photo. */
export type PhotoState =
  | { readonly kind: 'present'; readonly path: string; readonly size?: Size }
  /** Its bytes are not those that were measured. */
  | { readonly kind: 'changed'; readonly path: string; readonly size: Size }
  | { readonly kind: 'absent' }
  /** There, but of no use; or its name leads out of the photos folder. */
  | { readonly kind: 'unusable'; readonly message: string };

/** What is needed to look at photos; a session has it all. */
export interface PhotosToLookAt {
  readonly manifest: { readonly frames: readonly { readonly photo: { readonly value: string } }[] };
  readonly photosFolder: PhotosFolder;
  readonly people: { readonly photos: ReadonlyMap<string, Pick<PhotoPeople, 'digest'>> };
}

const AT_ONCE = 4;

/**
 * Looks at every photo of the session once; files are only read. By photo.
 * @throws the signal's reason when it aborts
 */
export async function photoStates(
  session: PhotosToLookAt,
  signal?: AbortSignal,
): Promise<ReadonlyMap<string, PhotoState>> {
  const photos = [...new Set(session.manifest.frames.map((frame) => frame.photo.value))];
  const digests = new Digests();
  const states = await inParallel(photos, AT_ONCE, async (photo) => {
    await breathe(signal);
    return [photo, await stateOf(session, photo, digests)] as const;
  });
  await digests.save();
  return new Map(states);
}

async function stateOf(session: PhotosToLookAt, photo: string, digests: Digests): Promise<PhotoState> {
  const { photosFolder } = session;
  if ('refused' in photosFolder) return { kind: 'absent' };
  const path = await pathInside(photosFolder.path, photo);
  if (path === undefined) {
    return {
      kind: 'unusable',
      message: `${photo} leads out of the photos folder and is not read. Put the photo itself into the folder.`,
    };
  }
  if (!existsSync(path)) return { kind: 'absent' };
  try {
    return await lookAt(path, session.people.photos.get(photo), digests);
  } catch (error) {
    if (error instanceof PhotoError) return { kind: 'unusable', message: `${photo}: ${error.message}` };
    throw error;
  }
}

async function lookAt(
  path: string,
  people: Pick<PhotoPeople, 'digest'> | undefined,
  digests: Digests,
): Promise<PhotoState> {
  if (people?.digest === undefined) return { kind: 'present', path, size: await readPhotoSize(path) };
  if ((await digests.of(path)) === people.digest) return { kind: 'present', path };
  return { kind: 'changed', path, size: await readPhotoSize(path) };
}
