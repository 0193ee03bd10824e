import exifr from 'exifr';

/**
 * The photo's star rating, from its embedded XMP (`xmp:Rating`, XMP specification part 1): 0 to 5, or -1 for rejected.
 * @returns undefined when the file has none or cannot be read; a missing rating never stops a session
 */
export async function readRating(path: string): Promise<number | undefined> {
  try {
    const tags = (await exifr.parse(path, { xmp: true, tiff: false, mergeOutput: true })) as
      { Rating?: unknown } | undefined;
    const rating = Number(tags?.Rating ?? NaN);
    return Number.isFinite(rating) ? rating : undefined;
  } catch {
    return undefined;
  }
}
