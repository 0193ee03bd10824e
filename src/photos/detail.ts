import type { Rectangle } from '../geometry/shapes.ts';
import { openPhoto } from './open-photo.ts';
import { asPhotoError } from './photo-error.ts';
import { sizeOf } from './size.ts';

export interface DetailOptions {
  /** What is shown, in fractions of the oriented photo, not turned; within 0 to 1. */
  readonly region: Rectangle;
  /** Pixels of the longer edge, at most; never more than the region has. */
  readonly longEdge: number;
}

const QUALITY = 88;

/**
 * A part of the oriented photo, or all of it, as JPEG bytes without any metadata. The file is only read. Of a whole photo
 * that is to be small, the decoder reads no more than it needs.
 * @throws PhotoError saying what is wrong with the file
 */
export async function makeDetail(path: string, { region, longEdge }: DetailOptions): Promise<Buffer> {
  try {
    const photo = await openPhoto(path);
    const { width, height } = await sizeOf(photo);
    photo.autoOrient();
    const { x, y, w, h } = region;
    if (x > 0 || y > 0 || w < 1 || h < 1) {
      const left = Math.min(width - 1, Math.floor(x * width));
      const top = Math.min(height - 1, Math.floor(y * height));
      photo.extract({
        left,
        top,
        width: Math.max(1, Math.min(width - left, Math.round(w * width))),
        height: Math.max(1, Math.min(height - top, Math.round(h * height))),
      });
    }
    return await photo
      .resize(longEdge, longEdge, { fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#ffffff' })
      .toColourspace('srgb')
      .jpeg({ quality: QUALITY })
      .toBuffer();
  } catch (error) {
    throw asPhotoError(error);
  }
}
