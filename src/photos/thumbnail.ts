import type { Rectangle } from '../geometry/shapes.ts';
import { imageLibrary, openPhoto } from './open-photo.ts';
import { asPhotoError } from './photo-error.ts';
import { sizeOf } from './size.ts';

export interface ThumbnailOptions {
  /** What is shown, in fractions of the photo, in the turned picture. */
  readonly crop: Rectangle;
  /** Turned clockwise about the photo's centre. */
  readonly degrees: number;
  /** Pixels of the longer edge, at most; a thumbnail is never larger than the photo has pixels. */
  readonly longEdge: number;
}

const QUALITY = 82;

/**
 * The crop as it would be delivered, small, as JPEG bytes without any metadata. The file is only read.
 * @throws PhotoError saying what is wrong with the file
 */
export async function makeThumbnail(path: string, options: ThumbnailOptions): Promise<Buffer> {
  const { crop, degrees, longEdge } = options;
  try {
    const photo = await openPhoto(path);
    const size = await sizeOf(photo);
    const scale = Math.min(1, longEdge / Math.max(crop.w * size.width, crop.h * size.height));
    const width = Math.max(1, Math.round(size.width * scale));
    const height = Math.max(1, Math.round(size.height * scale));
    const { data, info } = await photo
      .autoOrient()
      .resize(width, height, { fit: 'fill' })
      .flatten({ background: '#ffffff' })
      .toColourspace('srgb')
      .raw({ depth: 'uchar' })
      .toBuffer({ resolveWithObject: true });
    const sharp = await imageLibrary();
    // Turning makes the canvas larger around the same centre.
    const turned = await sharp(data, { raw: info }).rotate(degrees, { background: '#808080' }).raw().toBuffer({ resolveWithObject: true }); // prettier-ignore
    const left = (crop.x - 0.5) * width + turned.info.width / 2;
    const top = (crop.y - 0.5) * height + turned.info.height / 2;
    const region = inside(left, top, crop.w * width, crop.h * height, turned.info);
    return await sharp(turned.data, { raw: turned.info }).extract(region).jpeg({ quality: QUALITY }).toBuffer();
  } catch (error) {
    throw asPhotoError(error);
  }
}

/** Whole pixels, at least one, and inside the picture. */
function inside(
  left: number,
  top: number,
  width: number,
  height: number,
  picture: { readonly width: number; readonly height: number },
): { left: number; top: number; width: number; height: number } {
  const fromLeft = Math.min(Math.max(0, Math.round(left)), picture.width - 1);
  const fromTop = Math.min(Math.max(0, Math.round(top)), picture.height - 1);
  return {
    left: fromLeft,
    top: fromTop,
    width: Math.max(1, Math.min(Math.round(width), picture.width - fromLeft)),
    height: Math.max(1, Math.min(Math.round(height), picture.height - fromTop)),
  };
}
