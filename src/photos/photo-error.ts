import { INPUT_LIMITS } from '../input-limits.ts';

export type PhotoProblem =
  | 'missing'
  | 'unreadable'
  | 'empty'
  | 'large-file-pointer'
  | 'not-a-picture'
  | 'damaged'
  | 'too-many-pixels'
  | 'too-many-bytes'
  | 'no-preview'
  | 'unusable-crop';

/** A photo that cannot be used, with what is wrong and what to do about it. The message does not name the file. */
export class PhotoError extends Error {
  readonly problem: PhotoProblem;

  constructor(problem: PhotoProblem, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'PhotoError';
    this.problem = problem;
  }
}

/** What the image library or the file system threw, as a `PhotoError`. */
export function asPhotoError(cause: unknown): PhotoError {
  if (cause instanceof PhotoError) return cause;
  const text = cause instanceof Error ? cause.message : String(cause);
  const code = cause instanceof Error && 'code' in cause ? cause.code : undefined;
  const options = { cause };
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return new PhotoError('missing', 'The photo is not there. Check its name and the photos folder.', options);
  }
  if (code === 'EACCES' || code === 'EPERM') {
    const message = 'You may not read the photo. Change its permissions, or copy it to a folder that is yours.';
    return new PhotoError('unreadable', message, options);
  }
  if (typeof code === 'string' && /^E[A-Z]+$/.test(code)) {
    return new PhotoError(
      'unreadable',
      `The photo cannot be read (${code}). Check that it is a file you may read.`,
      options,
    );
  }
  if (/pixel limit|too (large|big)|exceeds/i.test(text)) return tooManyPixels(options);
  // "Unknown error": the library keeps one reason for all pictures, and another one took it away meanwhile.
  if (
    /premature|truncat|unexpected end|end of|incomplete|corrupt|read error|unable to parse|unknown error/i.test(text)
  ) {
    return new PhotoError(
      'damaged',
      'The picture file is damaged or cut short. Copy it again from the card or the backup.',
      options,
    );
  }
  if (/unsupported image format/i.test(text)) {
    return new PhotoError(
      'not-a-picture',
      'The file is not a picture that can be read (JPEG, PNG, TIFF, WebP, AVIF).',
      options,
    );
  }
  return new PhotoError(
    'not-a-picture',
    `The picture cannot be decoded (${firstLine(text)}). Copy it again, or export it anew as a JPEG.`,
    options,
  );
}

function tooManyPixels(options: ErrorOptions): PhotoError {
  const most = INPUT_LIMITS.photoPixels.most / 1_000_000;
  return new PhotoError(
    'too-many-pixels',
    `The picture has more than ${most} million pixels. Export a smaller copy.`,
    options,
  );
}

function firstLine(text: string): string {
  return text.split('\n', 1)[0]!.trim();
}
