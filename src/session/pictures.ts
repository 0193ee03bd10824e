import type { Rectangle } from '../geometry/shapes.ts';
import { PhotoError } from '../photos/photo-error.ts';
import { makeThumbnail } from '../photos/thumbnail.ts';

/** A small picture for a page: JPEG bytes without any metadata. */
export interface Picture {
  readonly jpeg: Buffer;
}

export const WHOLE_PHOTO: Rectangle = { x: 0, y: 0, w: 1, h: 1 };

/**
 * The crop of a photo as it would be delivered, small. The photo is only read.
 * @param longEdge in pixels, at most
 * @returns undefined when the photo cannot be read
 */
export async function pictureOf(
  path: string,
  crop: Rectangle,
  degrees: number,
  longEdge: number,
): Promise<Picture | undefined> {
  try {
    return { jpeg: await makeThumbnail(path, { crop, degrees, longEdge }) };
  } catch (error) {
    if (error instanceof PhotoError) return undefined;
    throw error;
  }
}
