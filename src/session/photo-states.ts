import { existsSync } from 'node:fs';
import type { Size } from '../geometry/shapes.ts';
import type { PhotoPeople } from '../people/person.ts';
import { PhotoError } from '../photos/photo-error.ts';
import { readPhotoSize } from '../photos/size.ts';
import { Pauses } from './breathe.ts';
import { Digests } from './digests.ts';
import { inParallel } from './in-parallel.ts';
import { pathInside } from './photos-folder.ts';
import type { Session } from './session.ts';

/** What the disk says about one photo. */
export type PhotoState =
  | { readonly kind: 'present'; readonly path: string; readonly size?: Size }
  /** Its bytes are not those that were measured. */
  | { readonly kind: 'changed'; readonly path: string; readonly size: Size }
  | { readonly kind: 'absent' }
  /** There, but of no use; or its name leads out of the photos folder. */
  | { readonly kind: 'unusable'; readonly message: string };

const AT_ONCE = 4;

/**
 * Looks at every photo of the session once; files are only read. By photo.
 * @throws the signal's reason when it aborts
 */
export async function photoStates(session: Session, signal?: AbortSignal): Promise<ReadonlyMap<string, PhotoState>> {
  const photos = [...new Set(session.manifest.frames.map((frame) => frame.photo.value))];
  const digests = new Digests();
  const pauses = new Pauses(signal);
  const states = await inParallel(photos, AT_ONCE, async (photo) => {
    if (pauses.isDue) await pauses.take();
    return [photo, await stateOf(session, photo, digests)] as const;
  });
  await digests.save();
  return new Map(states);
}

async function stateOf(session: Session, photo: string, digests: Digests): Promise<PhotoState> {
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

async function lookAt(path: string, people: PhotoPeople | undefined, digests: Digests): Promise<PhotoState> {
  if (people?.digest === undefined) return { kind: 'present', path, size: await readPhotoSize(path) };
  if ((await digests.of(path)) === people.digest) return { kind: 'present', path };
  return { kind: 'changed', path, size: await readPhotoSize(path) };
}
