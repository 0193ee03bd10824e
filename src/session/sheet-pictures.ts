import { inParallel } from './in-parallel.ts';
import type { FrameCheck } from './frame-check.ts';
import { canBeJudged } from './frame-scene.ts';
import { PhotoPlaces } from './photos-folder.ts';
import { pictureOf, type Picture } from './pictures.ts';
import type { SessionCheck } from './session-check.ts';

const AT_ONCE = 4;

/** Pixels of the longer edge: a sheet of thousands of frames has smaller pictures than one of a few. */
function longEdgeFor(frames: number): number {
  return frames <= 300 ? 480 : frames <= 2000 ? 320 : 200;
}

/**
 * The frames of a check, each with its picture as it would be delivered, made when it is asked for: a few at once and
 * never all. Photos are only read.
 * @throws the signal's reason when it aborts
 */
export async function* framesWithPictures(
  { session, frames }: SessionCheck,
  signal?: AbortSignal,
): AsyncGenerator<{ readonly check: FrameCheck; readonly picture?: Picture }> {
  const places = 'refused' in session.photosFolder ? undefined : new PhotoPlaces(session.photosFolder.path);
  const longEdge = longEdgeFor(frames.length);
  for (let from = 0; from < frames.length; from += AT_ONCE) {
    signal?.throwIfAborted();
    const some = frames.slice(from, from + AT_ONCE);
    yield* await inParallel(some, AT_ONCE, async (check) => {
      const picture = places && (await pictureIn(places, check, longEdge));
      return { check, ...(picture && { picture }) };
    });
  }
}

async function pictureIn(
  places: PhotoPlaces,
  { frame, crop, straighten }: FrameCheck,
  longEdge: number,
): Promise<Picture | undefined> {
  if (!canBeJudged(frame)) return undefined;
  const found = await places.find(frame.photo.value);
  return found?.stats?.isFile() === true ? pictureOf(found.path, crop, straighten, longEdge) : undefined;
}
