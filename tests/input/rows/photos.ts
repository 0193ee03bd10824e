import { execFileSync } from 'node:child_process';
import { closeSync, mkdirSync, openSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { pngThatClaims } from '../support/png.ts';

const PROOF = join(import.meta.dirname, '../../../sample-workspace/harbour/proofs/boardwalk-01.jpg');

/** One photo of a session: what stands in the file, and what `measure` and `check` must say of it. */
export interface PhotoRow {
  readonly file: string;
  readonly make: (path: string) => Promise<Buffer | string | undefined>;
  /** What `measure` says after the file's name; absent when it must be measured. */
  readonly measure?: string;
  /** What `check` says after that; absent when it has nothing to say about the photo itself. */
  readonly check?: string;
  /** Before it was measured `check` has nothing to say against the file. */
  readonly isSeenByMeasure?: true;
}

/** A small copy of a sample photo with one person. */
export function small(): Sharp {
  return sharp(PROOF).resize({ height: 360 });
}

const bytesOf = async (picture: Sharp): Promise<Buffer> => await picture.toBuffer();
const jpeg = (): Promise<Buffer> => bytesOf(small().jpeg());

const EMPTY = 'The file is empty (zero bytes). Copy it again from the card or the backup.';
const POINTER =
  'The file is only a pointer to large-file storage, not the picture. Fetch the picture first (git lfs pull).';
const NO_PICTURE = 'The file is not a picture that can be read (JPEG, PNG, TIFF, WebP, AVIF).';
const DAMAGED = 'The picture file is damaged or cut short. Copy it again from the card or the backup.';
const NO_PREVIEW = 'The camera raw file holds no preview that can be read. Put a JPEG of the same name beside it.';

/** The same words from both commands. */
const both = (said: string): Pick<PhotoRow, 'measure' | 'check'> => ({ measure: said, check: said });
/** Only the pixels are broken: the header, all that `check` reads, is fine; it knows from `measure`. */
const later = (said: string): Pick<PhotoRow, 'measure' | 'check' | 'isSeenByMeasure'> => ({
  ...both(said),
  isSeenByMeasure: true,
});
const text = (content: string) => () => Promise.resolve(content);

export const PHOTO_ROWS: readonly PhotoRow[] = [
  { file: 'sound.jpg', make: jpeg },
  { file: 'sixteen-bits.png', make: () => bytesOf(small().toColourspace('rgb16').png()) },
  { file: 'sixteen-bits.tiff', make: () => bytesOf(small().toColourspace('rgb16').tiff()) },
  { file: 'grey.jpg', make: () => bytesOf(small().greyscale().jpeg()) },
  { file: 'grey-sixteen-bits.png', make: () => bytesOf(small().greyscale().toColourspace('grey16').png()) },
  { file: 'cmyk.jpg', make: () => bytesOf(small().toColourspace('cmyk').jpeg()) },
  { file: 'cmyk.tiff', make: () => bytesOf(small().toColourspace('cmyk').tiff()) },
  { file: 'alpha.png', make: () => bytesOf(small().ensureAlpha(0.5).png()) },
  { file: 'palette.png', make: () => bytesOf(small().png({ palette: true })) },
  { file: 'progressive.jpg', make: () => bytesOf(small().jpeg({ progressive: true })) },
  { file: 'webp-named.jpg', make: () => bytesOf(small().webp()) },
  { file: 'avif.avif', make: () => bytesOf(sharp(PROOF).resize({ height: 160 }).avif({ effort: 0 })) },
  {
    file: 'one-pixel.png',
    make: () => bytesOf(sharp({ create: { width: 1, height: 1, channels: 3, background: '#888' } }).png()),
  },
  {
    file: 'a-thread.png',
    make: () => bytesOf(sharp({ create: { width: 3000, height: 1, channels: 3, background: '#888' } }).png()),
  },
  { file: '<b>markup & "quotes" \u009b31m.jpg', make: jpeg },
  { file: 'odd-exif.jpg', make: async () => withExif(await jpeg(), 'Exif\0\0MM\0*\xff\xff\xff\xff') },
  {
    file: 'orientation-99.jpg',
    make: async () => withExif(await jpeg(), 'Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0c\0\0\0\0\0\0'),
  },
  { file: 'junk-behind.jpg', make: async () => Buffer.concat([await jpeg(), Buffer.alloc(5000, 'junk')]) },
  { file: 'empty.jpg', make: text(''), ...both(EMPTY) },
  { file: 'text.jpg', make: text('a shopping list'), ...both(NO_PICTURE) },
  { file: 'page.jpg', make: text('<html><script>alert(1)</script></html>'), ...both(NO_PICTURE) },
  { file: 'zeros.jpg', make: () => Promise.resolve(Buffer.alloc(100_000)), ...both(NO_PICTURE) },
  {
    file: 'pointer.jpg',
    make: text('version https://git-lfs.github.com/spec/v1\noid sha256:4d7a\nsize 12345\n'),
    ...both(POINTER),
  },
  {
    file: 'drawing.jpg',
    make: text('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><image href="/etc/passwd"/></svg>'),
    ...both(NO_PICTURE),
  },
  {
    file: 'drawing.svg',
    make: text('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>'),
    ...both(NO_PICTURE),
  },
  { file: 'moving.gif', make: () => bytesOf(small().gif()), ...both(NO_PICTURE) },
  { file: 'document.jpg', make: text('%PDF-1.4\n1 0 obj\n<<>>\nendobj\n'), ...both(NO_PICTURE) },
  { file: 'cut.jpg', make: async () => half(await jpeg()), ...later(DAMAGED) },
  { file: 'cut.png', make: async () => half(await bytesOf(small().png())), ...later(DAMAGED) },
  { file: 'cut.webp', make: async () => half(await bytesOf(small().webp())), ...both(DAMAGED) },
  { file: 'cut.tiff', make: async () => half(await bytesOf(small().tiff())), ...both(NO_PICTURE) },
  { file: 'header.jpg', make: async () => (await jpeg()).subarray(0, 400), ...later(DAMAGED) },
  { file: 'twenty-bytes.jpg', make: async () => (await jpeg()).subarray(0, 20), ...both(DAMAGED) },
  {
    file: 'bomb.png',
    make: () => Promise.resolve(pngThatClaims(60_000, 60_000)),
    ...both('The picture has more than 400 million pixels. Export a smaller copy.'),
  },
  {
    file: 'a-thread-of-millions.png',
    make: () => Promise.resolve(pngThatClaims(8_388_632, 36)),
    ...both('An edge of the picture has more than 100000 pixels. Export a smaller copy.'),
  },
  { file: 'no-pixels.png', make: () => Promise.resolve(pngThatClaims(0, 0)), ...both(DAMAGED) },
  {
    file: 'five-gigabytes.jpg',
    make: (path) => {
      closeSync(openSync(path, 'w'));
      truncateSync(path, 5_000_000_000);
      return Promise.resolve(undefined);
    },
    ...both('The file has more than 4 GB. Export a smaller copy.'),
  },
  {
    file: 'folder.jpg',
    make: (path) => {
      mkdirSync(path);
      return Promise.resolve(undefined);
    },
    ...both('The photo cannot be read: it is a folder. Put the picture itself there.'),
  },
  {
    file: 'pipe.jpg',
    make: (path) => {
      execFileSync('mkfifo', [path]);
      return Promise.resolve(undefined);
    },
    ...both('The photo cannot be read: it is no plain file. Put the picture itself there.'),
  },
  { file: 'words.nef', make: text('not a raw file'), ...both(NO_PREVIEW) },
  { file: 'circle.nef', make: text('II*\0\x08\0\0\0\0\0\x08\0\0\0'), ...both(NO_PREVIEW) },
  {
    file: 'gone.jpg',
    make: () => Promise.resolve(undefined),
    measure: 'is not in',
    check: 'is not there. Check the name',
  },
];

function half(bytes: Buffer): Buffer {
  return bytes.subarray(0, Math.floor(bytes.length / 2));
}

/** The JPEG with an APP1 segment of this content as its first (JPEG: ITU-T T.81; Exif 2.32, 4.7.2). */
function withExif(picture: Buffer, content: string): Buffer {
  const body = Buffer.from(content, 'latin1');
  const head = Buffer.from([0xff, 0xe1, 0, body.length + 2]);
  return Buffer.concat([picture.subarray(0, 2), head, body, picture.subarray(2)]);
}
