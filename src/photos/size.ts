import type { Sharp } from 'sharp';
import type { Size } from '../geometry/shapes.ts';
import { INPUT_LIMITS } from '../input-limits.ts';
import { openPhoto } from './open-photo.ts';
import { asPhotoError, PhotoError } from './photo-error.ts';

interface StoredSize {
  readonly width: number;
  readonly height: number;
  /** EXIF orientation, 1 to 8. */
  readonly orientation?: number | undefined;
}

/** The size as seen: EXIF orientations 5 to 8 lay the picture on its side (Exif 2.32, tag 0x0112). */
function orientedSize({ width, height, orientation = 1 }: StoredSize): Size {
  return orientation >= 5 ? { width: height, height: width } : { width, height };
}

/**
 * The size of the oriented photo in pixels, from its header alone.
 * @throws PhotoError saying what is wrong with the file
 */
export async function readPhotoSize(path: string): Promise<Size> {
  try {
    return await sizeOf(await openPhoto(path));
  } catch (error) {
    throw asPhotoError(error);
  }
}

/**
 * The size of an opened photo, oriented, from its header alone.
 * @throws PhotoError when no camera makes such a picture: a few bytes that claim millions of columns take long to refuse
 */
export async function sizeOf(photo: Sharp): Promise<Size> {
  const size = orientedSize(await photo.metadata());
  const { most } = INPUT_LIMITS.photoEdge;
  if (Math.max(size.width, size.height) <= most) return size;
  throw new PhotoError(
    'too-many-pixels',
    `An edge of the picture has more than ${most} pixels. Export a smaller copy.`,
  );
}
