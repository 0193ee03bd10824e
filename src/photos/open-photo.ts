import type { default as Library, Sharp } from 'sharp';
import { INPUT_LIMITS } from '../input-limits.ts';
import { checkPhotoFile } from './check-file.ts';
import { isCameraRawName } from './file-names.ts';
import { readRawPreview } from './raw-preview.ts';

// Only what a camera or a raw converter writes is read, whatever a file is called: documents and drawings (SVG, PDF …)
// can name other files and need loaders of far more code.
const LOADERS = [
  'VipsForeignLoadJpeg',
  'VipsForeignLoadPng',
  'VipsForeignLoadTiff',
  'VipsForeignLoadWebp',
  'VipsForeignLoadHeif',
];

// "error" lets a picture with odd metadata pass and stops at missing or broken image data.
const OPTIONS = { failOn: 'error', limitInputPixels: INPUT_LIMITS.photoPixels.most, sequentialRead: true } as const;

/**
 * Opens a photo for reading only. Of a camera raw file it opens the embedded preview.
 * @throws PhotoError when the file cannot be read or is not a picture
 */
export async function openPhoto(path: string): Promise<Sharp> {
  await checkPhotoFile(path);
  const sharp = await imageLibrary();
  return sharp(isCameraRawName(path) ? await readRawPreview(path) : path, OPTIONS);
}

/** Pixels that this program has just stored: the image library's own bytes, no matter how many. */
export async function reopenPixels(stored: Buffer): Promise<Sharp> {
  const sharp = await imageLibrary();
  return sharp(stored, { limitInputPixels: false, sequentialRead: true });
}

let loading: Promise<typeof Library> | undefined;

/**
 * The image library, loaded with the first photo and set to read only pictures: the editor's process holds this code and
 * must never hold the library.
 */
export function imageLibrary(): Promise<typeof Library> {
  return (loading ??= import('sharp').then(({ default: sharp }) => {
    sharp.block({ operation: ['VipsForeignLoad'] });
    sharp.unblock({ operation: LOADERS });
    return sharp;
  }));
}
