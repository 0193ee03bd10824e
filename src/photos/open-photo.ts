import type { Sharp } from 'sharp';
import { checkPhotoFile } from './check-file.ts';
import { isCameraRawName } from './file-names.ts';
import { MOST_PIXELS } from './photo-error.ts';
import { readRawPreview } from './raw-preview.ts';

// "error" lets a picture with odd metadata pass and stops at missing or broken image data.
const OPTIONS = { failOn: 'error', limitInputPixels: MOST_PIXELS, sequentialRead: true } as const;

/**
 * Opens a photo for reading only. Of a camera raw file it opens the embedded preview.
 * @throws PhotoError when the file cannot be read or is not a picture
 */
export async function openPhoto(path: string): Promise<Sharp> {
  await checkPhotoFile(path);
  // Loaded with the first photo: the editor's process holds this code and must never hold the image library.
  const { default: sharp } = await import('sharp');
  return sharp(isCameraRawName(path) ? await readRawPreview(path) : path, OPTIONS);
}
