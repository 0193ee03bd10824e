import exifr from 'exifr';
import type * as exifrTypes from 'exifr';
import { checkPhotoFile } from './check-file.ts';

// In Node the package is one object; its types speak of the build for bundlers.
const { Exifr } = exifr as unknown as typeof exifrTypes;

/** What exifr's own types leave out: the file that it opened. */
interface OpenFile {
  readonly file?: { readonly close?: () => Promise<void> };
}

/**
 * The photo's star rating, from its embedded XMP (`xmp:Rating`, XMP specification part 1): 0 to 5, or -1 for rejected.
 * @returns undefined when the file has none or cannot be read; a missing rating never stops a session
 */
export async function readRating(path: string): Promise<number | undefined> {
  const reader = new Exifr({ xmp: true, tiff: false, mergeOutput: true });
  try {
    await checkPhotoFile(path);
    await reader.read(path);
    const tags = (await reader.parse()) as { Rating?: unknown } | undefined;
    const rating = Number(tags?.Rating ?? NaN);
    return Number.isFinite(rating) ? rating : undefined;
  } catch {
    return undefined;
  } finally {
    // Of a file that it cannot read exifr lets go only when memory is cleared up.
    await (reader as OpenFile).file?.close?.().catch(() => undefined);
  }
}
