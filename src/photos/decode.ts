import type { Size } from '../geometry/shapes.ts';
import { openPhoto } from './open-photo.ts';
import { asPhotoError } from './photo-error.ts';
import { sizeOf } from './size.ts';

/** A picture in memory: rows from the top, three bytes a pixel (red, green, blue, sRGB), nothing between rows. */
export interface Pixels extends Size {
  readonly data: Uint8Array;
}

export interface DecodedPhoto {
  /** Of the whole oriented photo. */
  readonly size: Size;
  /** The oriented photo, made smaller where it is larger than asked for. */
  readonly pixels: Pixels;
}

/**
 * Decodes a photo into plain sRGB bytes: EXIF orientation applied, colour profile, grey, CMYK and 16 bit converted,
 * transparent parts on white. The file is only read.
 * @param longEdge the most pixels along the longer edge; smaller photos stay as they are
 * @throws PhotoError saying what is wrong with the file
 */
export async function decodePhoto(path: string, longEdge: number): Promise<DecodedPhoto> {
  try {
    const photo = await openPhoto(path);
    const size = await sizeOf(photo);
    const { data, info } = await photo
      .autoOrient()
      .resize(longEdge, longEdge, { fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#ffffff' })
      .toColourspace('srgb')
      .raw({ depth: 'uchar' })
      .toBuffer({ resolveWithObject: true });
    return { size, pixels: { width: info.width, height: info.height, data } };
  } catch (error) {
    throw asPhotoError(error);
  }
}
