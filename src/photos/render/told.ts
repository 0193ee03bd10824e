import exifr from 'exifr';
import type { Metadata } from 'sharp';

/** What a photo tells beside its pixels, as far as it is carried on: by part of the metadata, then by name. */
export type Told = Readonly<Record<string, Readonly<Record<string, unknown>> | undefined>>;

const XMP_START = Buffer.from('http://ns.adobe.com/xap/1.0/\0', 'latin1');
const EXIF_START = Buffer.from('Exif\0\0', 'latin1');
const IPTC_START = Buffer.from('Photoshop 3.0\0', 'latin1');
/** A segment of a JPEG has no room for more (ITU-T T.81, B.1.1.4). */
const MOST_BYTES = 65_533;

const OPTIONS = {
  tiff: true,
  exif: true,
  gps: true,
  xmp: true,
  iptc: true,
  mergeOutput: false,
  translateValues: false,
  reviveValues: false,
} as const;

/**
 * Reads the metadata that the image library has found, of whatever format. What cannot be read is left out: a damaged
 * note never stops a picture.
 */
export async function readTold({ exif, xmp, iptc }: Pick<Metadata, 'exif' | 'xmp' | 'iptc'>): Promise<Told> {
  // The metadata reader takes whole files: the blocks go into a JPEG that has nothing else.
  const blocks = [
    ...block(0xe1, exif && (exif.subarray(0, 6).equals(EXIF_START) ? exif : Buffer.concat([EXIF_START, exif]))),
    ...block(0xe1, xmp && Buffer.concat([XMP_START, xmp])),
    ...block(0xed, iptc && (iptc.subarray(0, 14).equals(IPTC_START) ? iptc : Buffer.concat([IPTC_START, iptc]))),
  ];
  if (blocks.length === 0) return {};
  const file = Buffer.concat([Buffer.from('ffd8', 'hex'), ...blocks, Buffer.from('ffda0002ffd9', 'hex')]);
  try {
    return ((await exifr.parse(file, OPTIONS)) as Told | undefined) ?? {};
  } catch {
    return {};
  }
}

function block(marker: number, bytes: Buffer | undefined): Buffer[] {
  if (bytes === undefined || bytes.length + 2 > MOST_BYTES) return [];
  const start = Buffer.from([0xff, marker, 0, 0]);
  start.writeUInt16BE(bytes.length + 2, 2);
  return [start, bytes];
}

/** A text as somebody wrote it: of several languages the first, of several entries all; undefined when there is none. */
export function textsOf(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(textsOf);
  if (typeof value === 'string') return value.trim() === '' ? [] : [unescaped(value).trim()];
  if (typeof value === 'number') return [String(value)];
  if (isRecord(value) && 'value' in value) return textsOf(value['value']);
  return [];
}

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Of one entry or several the list. */
export function listOf(value: unknown): Readonly<Record<string, unknown>>[] {
  return (Array.isArray(value) ? value : [value]).filter(isRecord);
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' };

/** XML 1.0, 4.1 and 4.6: the five named entities and characters by number. */
function unescaped(text: string): string {
  return text.replace(/&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|(lt|gt|quot|apos|amp));/gi, (whole, hex, decimal, name) => {
    if (typeof name === 'string') return ENTITIES[name.toLowerCase()] ?? whole;
    const code = typeof hex === 'string' ? parseInt(hex, 16) : Number(decimal);
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}
