import type { Size } from '../geometry/shapes.ts';
import { openPhoto } from './open-photo.ts';
import { asPhotoError } from './photo-error.ts';

interface StoredSize {
  readonly width: number;
  readonly height: number;
  /** EXIF orientation, 1 to 8. */
  readonly orientation?: number | undefined;
}

/** The size as seen: EXIF orientations 5 to 8 lay the picture on its side (Exif 2.32, tag 0x0112). */
export function orientedSize({ width, height, orientation = 1 }: StoredSize): Size {
  return orientation >= 5 ? { width: height, height: width } : { width, height };
}

/**
 * The size of the oriented photo in pixels, from its header alone.
 * @throws PhotoError saying what is wrong with the file
 */
export async function readPhotoSize(path: string): Promise<Size> {
  try {
    const photo = await openPhoto(path);
    return orientedSize(await photo.metadata());
  } catch (error) {
    throw asPhotoError(error);
  }
}
