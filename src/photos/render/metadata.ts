import type { Metadata, Sharp } from 'sharp';
import type { Size } from '../../geometry/shapes.ts';
import { creditOf } from './credit.ts';
import { exifBlock } from './exif-block.ts';
import { movedRegions } from './moved-regions.ts';
import { placeInFile, type Cut } from './placement.ts';
import { readRegions } from './regions.ts';
import { readTold } from './told.ts';
import { xmpPacket } from './xmp-packet.ts';

export interface MetadataOptions {
  /** All that stays true of the picture, only whose it is, or nothing. */
  readonly kept: 'all' | 'credit' | 'none';
  /** Where the photo was taken; only with all. */
  readonly location: boolean;
}

/** Writes into a new file what its photo tells, regions at their places in the new picture. */
export async function withTold(
  picture: Sharp,
  photo: Metadata,
  cut: Cut,
  file: Size,
  { kept, location }: MetadataOptions,
): Promise<Sharp> {
  if (kept === 'none') return picture;
  const told = await readTold(photo);
  const all = kept === 'all';
  const credit = creditOf(told, { words: all, location: all && location });
  const stored = { width: photo.width, height: photo.height };
  const marked = all ? readRegions(told, stored, photo.orientation ?? 1) : [];
  const regions = movedRegions(marked, (point) => placeInFile(cut, point), file);
  const xmp = xmpPacket(credit, regions, file);
  const exif = exifBlock(told, credit, { camera: all, location });
  const withXmp = xmp === undefined ? picture : picture.withXmp(xmp);
  return exif ? withXmp.withExif(exif) : withXmp;
}
