import type { Rectangle } from '../geometry/shapes.ts';
import { PhotoError } from '../photos/photo-error.ts';
import { makeThumbnail } from '../photos/thumbnail.ts';

/** A small picture for a page, without any metadata. */
export interface Picture {
  /** What the page loads it from; `data:` where the page needs nothing but itself. */
  readonly address: string;
}

/** Makes the picture of a crop as it would be delivered; undefined when the photo cannot be read. */
export type MakePicture = (
  path: string,
  crop: Rectangle,
  degrees: number,
  longEdge: number,
) => Promise<Picture | undefined>;

/**
 * The crop of a photo as it would be delivered, small and in its own address. The photo is only read.
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
    const jpeg = await makeThumbnail(path, { crop, degrees, longEdge });
    return { address: `data:image/jpeg;base64,${jpeg.toString('base64')}` };
  } catch (error) {
    if (error instanceof PhotoError) return undefined;
    throw error;
  }
}
