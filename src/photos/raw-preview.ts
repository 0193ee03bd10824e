import { open, type FileHandle } from 'node:fs/promises';
import { INPUT_LIMITS } from '../input-limits.ts';
import { PhotoError } from './photo-error.ts';
import { readAt, readTiffDirectories, type TiffDirectory } from './tiff-directories.ts';

/** TIFF 6.0 and TIFF/EP tag numbers. */
const TAG = { orientation: 0x0112, stripOffsets: 0x0111, stripLengths: 0x0117, jpegOffset: 0x0201, jpegLength: 0x0202 };
const JPEG_START = 0xffd8;

/**
 * The largest JPEG preview inside a camera raw file, with the raw file's orientation.
 * @throws PhotoError when there is none that this program can find
 */
export async function readRawPreview(path: string): Promise<Buffer> {
  const file = await open(path, 'r');
  try {
    const directories = await readTiffDirectories(file);
    const places = directories.flatMap((directory) => [
      [directory.get(TAG.jpegOffset)?.[0], directory.get(TAG.jpegLength)?.[0]],
      // A picture in one strip may be a whole JPEG too.
      [onlyOne(directory.get(TAG.stripOffsets)), onlyOne(directory.get(TAG.stripLengths))],
    ]);
    const jpeg = await largestJpeg(file, places);
    if (jpeg !== undefined) return withOrientation(jpeg, orientationOf(directories[0]));
  } finally {
    await file.close();
  }
  throw new PhotoError(
    'no-preview',
    'The camera raw file holds no preview that can be read. Put a JPEG of the same name beside it.',
  );
}

function onlyOne(numbers: readonly number[] | undefined): number | undefined {
  return numbers?.length === 1 ? numbers[0] : undefined;
}

async function largestJpeg(
  file: FileHandle,
  places: readonly (readonly (number | undefined)[])[],
): Promise<Buffer | undefined> {
  const { size } = await file.stat();
  const bySize = places
    .flatMap(([offset, length]) => (offset !== undefined && length !== undefined ? [{ offset, length }] : []))
    .filter(
      ({ offset, length }) => length > 4 && length <= INPUT_LIMITS.rawPreviewBytes.most && offset + length <= size,
    )
    .sort((a, b) => b.length - a.length);
  for (const { offset, length } of bySize) {
    const bytes = await readAt(file, offset, length);
    if (bytes.length === length && bytes.readUInt16BE(0) === JPEG_START && isViewable(bytes)) return bytes;
  }
  return undefined;
}

/** Raw sensor data is often kept as a lossless JPEG, which only raw converters read (start of frame 3, ITU-T T.81). */
function isViewable(jpeg: Buffer): boolean {
  let at = 2;
  while (at + 4 <= jpeg.length && jpeg[at] === 0xff) {
    const marker = jpeg[at + 1]!;
    if (marker === 0xc0 || marker === 0xc1 || marker === 0xc2) return true;
    if (marker === 0xc3 || marker === 0xda) return false;
    at += 2 + jpeg.readUInt16BE(at + 2);
  }
  return false;
}

/** 1 where there is none, or none that Exif knows (2.32, tag 0x0112: 1 to 8). */
function orientationOf(directory: TiffDirectory | undefined): number {
  const orientation = directory?.get(TAG.orientation)?.[0] ?? 1;
  return orientation >= 1 && orientation <= 8 ? orientation : 1;
}

/** The JPEG with an EXIF block that says its orientation, unless it brings its own. */
function withOrientation(jpeg: Buffer, orientation: number): Buffer {
  if (jpeg.subarray(0, 64).includes('Exif\0\0', 0, 'latin1')) return jpeg;
  const tiff = Buffer.from('4d4d002a00000008000101120003000000010000000000000000', 'hex');
  tiff.writeUInt16BE(orientation, 18);
  const block = Buffer.concat([Buffer.from('ffe10000', 'hex'), Buffer.from('Exif\0\0', 'latin1'), tiff]);
  block.writeUInt16BE(block.length - 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), block, jpeg.subarray(2)]);
}
