import type { Exif } from 'sharp';
import type { Credit } from './credit.ts';
import type { Told } from './told.ts';

/** What the camera says that stays true of a cut picture (names and kinds: Exif 2.32, tables 4 to 8). */
const CAMERA = { Make: 'text', Model: 'text', DateTime: 'text' } as const;
const TAKEN = {
  DateTimeOriginal: 'text',
  OffsetTimeOriginal: 'text',
  ExposureTime: 'fraction',
  FNumber: 'fraction',
  ExposureBiasValue: 'fraction',
  FocalLength: 'fraction',
  LensModel: 'text',
} as const;
/** exifr names the tag by what it is now; the image library by its name in Exif 2.2. */
const SPEED = { ISO: 'ISOSpeedRatings' } as const;
const PLACE = {
  GPSLatitudeRef: 'text',
  GPSLatitude: 'degrees',
  GPSLongitudeRef: 'text',
  GPSLongitude: 'degrees',
} as const;

type Kind = 'text' | 'fraction' | 'degrees';

export interface ExifOptions {
  /** What the camera says too, not only whose picture it is. */
  readonly camera: boolean;
  readonly location: boolean;
}

/** The EXIF of a new file; undefined when there is nothing to say. A preview of the whole photo is never carried on. */
export function exifBlock(told: Told, credit: Credit, { camera, location }: ExifOptions): Exif | undefined {
  const first = {
    ...(camera && chosen(told['ifd0'], CAMERA)),
    ...(credit.creators.length > 0 && { Artist: credit.creators.join('; ') }),
    ...(credit.rights !== undefined && { Copyright: credit.rights }),
    ...(credit.description !== undefined && { ImageDescription: credit.description }),
  };
  const speed = told['exif']?.['ISO'];
  const taken = {
    ...(camera && chosen(told['exif'], TAKEN)),
    ...(camera && typeof speed === 'number' && { [SPEED.ISO]: String(Math.round(speed)) }),
  };
  const place = camera && location ? chosen(told['gps'], PLACE) : {};
  const parts = { IFD0: first, IFD2: taken, IFD3: place };
  const said = Object.entries(parts).filter(([, tags]) => Object.keys(tags).length > 0);
  return said.length > 0 ? Object.fromEntries(said) : undefined;
}

function chosen(from: Told[string], kinds: Readonly<Record<string, Kind>>): Record<string, string> {
  const written = Object.entries(kinds).map(([name, kind]) => [name, writtenAs(from?.[name], kind)] as const);
  return Object.fromEntries(written.flatMap(([name, text]) => (text === undefined ? [] : [[name, text]])));
}

/** As the image library takes tags: text as it is, fractions with a slash. */
function writtenAs(value: unknown, kind: Kind): string | undefined {
  if (kind === 'text') return typeof value === 'string' && value.trim() !== '' ? value.trim() : undefined;
  if (kind === 'fraction') return typeof value === 'number' && Number.isFinite(value) ? fraction(value) : undefined;
  const isPlace = Array.isArray(value) && value.length === 3 && value.every((part) => Number.isFinite(part));
  return isPlace ? (value as number[]).map((part) => `${Math.round(part * 10_000)}/10000`).join(' ') : undefined;
}

function fraction(value: number): string {
  // Exposure times are fractions of a second that people know by their lower number.
  if (value > 0 && value < 0.5) return `1/${Math.round(1 / value)}`;
  return `${Math.round(value * 1000)}/1000`;
}
