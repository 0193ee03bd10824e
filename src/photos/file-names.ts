import { extname } from 'node:path';

const RENDERED = new Set(['.jpg', '.jpeg', '.jpe', '.png', '.tif', '.tiff', '.webp', '.avif', '.heic', '.heif']);

/** Camera raw files by their extension (common practice, no source). */
const CAMERA_RAW = new Set([
  '.3fr', '.arw', '.cr2', '.cr3', '.dng', '.erf', '.fff', '.iiq', '.kdc', '.mef', '.mos', '.mrw', '.nef', '.nrw', '.orf',
  '.pef', '.raf', '.raw', '.rw2', '.rwl', '.sr2', '.srf', '.srw', '.x3f',
]); // prettier-ignore

export function isPictureName(name: string): boolean {
  return RENDERED.has(extname(name).toLowerCase()) || isCameraRawName(name);
}

export function isCameraRawName(name: string): boolean {
  return CAMERA_RAW.has(extname(name).toLowerCase());
}

export interface ChosenPictures {
  /** In the order they came. */
  readonly pictures: readonly string[];
  /** Camera raw files of which the same folder has a rendered picture of the same name: they count once. */
  readonly rawBesidePicture: readonly string[];
}

/** The pictures among file names (with or without folders), a raw file beside its JPEG counted once. */
export function choosePictures(names: readonly string[]): ChosenPictures {
  const pictures = names.filter(isPictureName);
  const rendered = new Set(pictures.filter((name) => !isCameraRawName(name)).map(stemOf));
  const isBeside = (name: string): boolean => isCameraRawName(name) && rendered.has(stemOf(name));
  return { pictures: pictures.filter((name) => !isBeside(name)), rawBesidePicture: pictures.filter(isBeside) };
}

function stemOf(name: string): string {
  return name.slice(0, name.length - extname(name).length).toLowerCase();
}
