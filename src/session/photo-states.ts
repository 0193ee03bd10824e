import { existsSync, type Stats } from 'node:fs';
import type { Size } from '../geometry/shapes.ts';
import type { PhotoPeople } from '../people/person.ts';
import { PhotoError } from '../photos/photo-error.ts';
import { isPictureName } from '../photos/file-names.ts';
import { pointedDigest } from '../photos/large-file-pointer.ts';
import { readPhotoSize } from '../photos/size.ts';
import { Pauses } from './breathe.ts';
import { Digests } from './digests.ts';
import { filesUnder } from './folder-files.ts';
import { inParallel } from './in-parallel.ts';
import { PhotoPlaces, type PhotosFolder } from './photos-folder.ts';
import { PhotoTroubles } from './photo-troubles.ts';
import { likelyFile } from './renamed.ts';

/** What the disk says about one photo. */
export type PhotoState =
  /** `trouble`: nobody was measured in it, because of what this says. */
  | { readonly kind: 'present'; readonly path: string; readonly size?: Size; readonly trouble?: string }
  /** Its bytes are not those that were measured. */
  | { readonly kind: 'changed'; readonly path: string; readonly size: Size }
  /** `meant` is a file in the photos folder that it probably is by now. */
  | { readonly kind: 'absent'; readonly meant?: string }
  /** There, but of no use; or its name leads out of the photos folder. */
  | { readonly kind: 'unusable'; readonly message: string };

/** What is needed to look at photos; a session has it all. */
export interface PhotosToLookAt {
  readonly manifest: { readonly frames: readonly { readonly photo: { readonly value: string } }[] };
  readonly photosFolder: PhotosFolder;
  readonly people: { readonly photos: ReadonlyMap<string, Pick<PhotoPeople, 'digest'>> };
}

const AT_ONCE = 4;
/** Beyond this a whole card is missing, and no name helps. */
const MOST_COMPARISONS = 200_000;

/**
 * Looks at every photo of the session once; files are only read. By photo.
 * @param only photos to be read; of the others it is only looked up whether they are there
 * @throws the signal's reason when it aborts
 */
export async function photoStates(
  session: PhotosToLookAt,
  signal?: AbortSignal,
  only?: ReadonlySet<string>,
): Promise<ReadonlyMap<string, PhotoState>> {
  const photos = [...new Set(session.manifest.frames.map((frame) => frame.photo.value))];
  if ('refused' in session.photosFolder) return new Map(photos.map((photo) => [photo, { kind: 'absent' }]));
  const places = new PhotoPlaces(session.photosFolder.path);
  const memory = { digests: new Digests(), troubles: new PhotoTroubles() };
  const pauses = new Pauses(signal);
  const states = await inParallel(photos, AT_ONCE, async (photo) => {
    if (pauses.isDue) await pauses.take();
    const isRead = only?.has(photo) ?? true;
    return [photo, isRead ? await stateOf(session, photo, places, memory) : await presence(photo, places)] as const;
  });
  await memory.digests.save();
  return withLikelyFiles(session, new Map(states));
}

/** Says of photos that are not there which file of the photos folder they probably are. */
async function withLikelyFiles(
  { photosFolder }: PhotosToLookAt,
  states: ReadonlyMap<string, PhotoState>,
): Promise<ReadonlyMap<string, PhotoState>> {
  const missing = [...states].filter(([, { kind }]) => kind === 'absent').map(([photo]) => photo);
  if (missing.length === 0 || 'refused' in photosFolder || !existsSync(photosFolder.path)) return states;
  const { files } = await filesUnder(photosFolder.path).catch(() => ({ files: [] }));
  const unused = files.filter((file) => isPictureName(file) && !states.has(file));
  if (missing.length * unused.length > MOST_COMPARISONS) return states;
  const meant = missing.map((photo) => [photo, likelyFile(photo, unused)] as const);
  const named = meant.flatMap(([photo, file]) =>
    file === undefined ? [] : [[photo, { kind: 'absent', meant: file }] as const],
  );
  return new Map([...states, ...named]);
}

async function presence(photo: string, places: PhotoPlaces): Promise<PhotoState> {
  const found = await places.find(photo);
  return found?.stats ? { kind: 'present', path: found.path } : { kind: 'absent' };
}

async function stateOf(
  session: PhotosToLookAt,
  photo: string,
  places: PhotoPlaces,
  memory: Memory,
): Promise<PhotoState> {
  const found = await places.find(photo);
  if (found === undefined) {
    return {
      kind: 'unusable',
      message: `${photo} leads out of the photos folder and is not read. Put the photo itself into the folder.`,
    };
  }
  if (!found.stats) return { kind: 'absent' };
  try {
    return await lookAt(found.path, found.stats, session.people.photos.get(photo), memory);
  } catch (error) {
    if (error instanceof PhotoError) return { kind: 'unusable', message: `${photo}: ${error.message}` };
    throw error;
  }
}

/** What earlier runs learnt of photos. */
interface Memory {
  readonly digests: Digests;
  readonly troubles: PhotoTroubles;
}

async function lookAt(
  path: string,
  stats: Stats,
  people: Pick<PhotoPeople, 'digest'> | undefined,
  { digests, troubles }: Memory,
): Promise<PhotoState> {
  if (people?.digest === undefined) {
    const size = await readPhotoSize(path);
    const trouble = people ? undefined : await troubles.of(path, stats);
    return { kind: 'present', path, size, ...(trouble !== undefined && { trouble }) };
  }
  // A pointer to large-file storage names the bytes that were measured: all that a check needs is known.
  if ((await pointedDigest(path, stats.size)) === people.digest) return { kind: 'present', path };
  if ((await digests.of(path, stats)) === people.digest) return { kind: 'present', path };
  return { kind: 'changed', path, size: await readPhotoSize(path) };
}
