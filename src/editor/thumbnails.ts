import { readFile } from 'node:fs/promises';
import type { Rectangle } from '../geometry/shapes.ts';
import { PhotoPlaces } from '../session/photos-folder.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import type { Session } from '../session/session.ts';
import type { PhotoRoom } from './photo-room.ts';

/** A hover's text is cut at 100,000 characters; a picture in it stays well below. */
const MOST_BYTES = 60_000;
const LONG_EDGES = [480, 360, 240, 160];

/** Where a frame's photo is on the disk; undefined when it may not be read, or is not there to be asked. */
export async function photoPathOf({ photosFolder }: Session, photo: string): Promise<string | undefined> {
  return 'path' in photosFolder ? (await new PhotoPlaces(photosFolder.path).find(photo))?.path : undefined;
}

/**
 * The crop as it will be delivered, small, as a `data:` address.
 * @throws Error when the photo cannot be read
 */
export async function thumbnailOf(
  room: PhotoRoom,
  path: string,
  { crop, straighten }: Pick<FrameCheck, 'straighten'> & { readonly crop: Rectangle },
  signal: AbortSignal,
): Promise<string | undefined> {
  for (const longEdge of LONG_EDGES) {
    const { file } = await room.ask('thumbnail', { path, crop, degrees: straighten, longEdge }, { signal });
    const bytes = await readFile(file);
    if (bytes.length <= MOST_BYTES) return `data:image/jpeg;base64,${bytes.toString('base64')}`;
  }
  return undefined;
}
