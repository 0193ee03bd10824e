import type { Sharp } from 'sharp';

export type FileFormat = 'jpeg' | 'png' | 'tiff' | 'webp' | 'avif';

export const ENDINGS: Readonly<Record<FileFormat, string>> = {
  jpeg: '.jpg',
  png: '.png',
  tiff: '.tif',
  webp: '.webp',
  avif: '.avif',
};

/** The most pixels along a side that a format holds: JPEG (ITU-T T.81), WebP (RFC 9649), the AVIF encoder; else our own. */
export const LONGEST_SIDES: Readonly<Record<FileFormat, number>> = {
  jpeg: 65_535,
  png: 100_000,
  tiff: 100_000,
  webp: 16_383,
  avif: 16_384,
};

/** Where the manifest says nothing (common practice, no source). */
const QUALITY = { jpeg: 90, webp: 88, avif: 70 } as const;
/** From here on a JPEG keeps colour as fine as brightness. */
const FINE = 90;

/** The file's format. PNG and TIFF lose nothing, and take no quality. */
export function encoded(picture: Sharp, format: FileFormat, quality: number | undefined): Sharp {
  switch (format) {
    case 'jpeg': {
      const chosen = quality ?? QUALITY.jpeg;
      return picture
        .flatten({ background: '#ffffff' })
        .jpeg({ quality: chosen, chromaSubsampling: chosen >= FINE ? '4:4:4' : '4:2:0' });
    }
    case 'png':
      return picture.png();
    case 'tiff':
      return picture.tiff({ compression: 'deflate', predictor: 'horizontal' });
    case 'webp':
      return picture.webp({ quality: quality ?? QUALITY.webp });
    case 'avif':
      return picture.avif({ quality: quality ?? QUALITY.avif });
  }
}
