import type { Sharp } from 'sharp';
import type { Size } from '../../geometry/shapes.ts';
import { isInsidePhoto } from '../../geometry/crop.ts';
import { EDGE_NAMES, widthOf } from '../../geometry/shapes.ts';
import { openPhoto, reopenPixels } from '../open-photo.ts';
import { asPhotoError, PhotoError } from '../photo-error.ts';
import { beginColours, colourPlan, endColours, type ColourPlan, type ColourProfile } from './colour.ts';
import { encoded, type FileFormat } from './encode.ts';
import { withTold, type MetadataOptions } from './metadata.ts';
import { placementOf, type Cut, type Placement } from './placement.ts';
import { turnOf, type Region } from './turned-pixels.ts';

/** How the picture is written. */
export interface FileOptions {
  readonly format: FileFormat;
  /** 1 to 100; absent: the format's own. */
  readonly quality?: number | undefined;
  readonly profile: ColourProfile;
  /** A picture that is made smaller is sharpened lightly. */
  readonly sharpen: boolean;
  /** Pixels per inch that the file says. */
  readonly ppi?: number | undefined;
  readonly metadata: MetadataOptions;
}

export interface RenderedPicture {
  readonly bytes: Buffer;
  readonly size: Size;
  /** The photo has fewer pixels than the file. */
  readonly isEnlarged: boolean;
}

/** An unsharp mask of less than a pixel, on edges alone (common practice, no source). */
const SHARPENING = { sigma: 0.5, m1: 0, m2: 1.5 };

/**
 * Cuts a picture out of a photo: orientation, straightening, crop, size, bleed, colours, format. The photo is only read.
 * A straightened picture is interpolated once, at the photo's scale or the file's, whichever is finer; made smaller it is
 * reduced after that.
 * @param cutFor says what is cut, when the photo's size is known
 * @throws PhotoError when the photo cannot be read, or the crop is not inside it
 */
export async function renderPicture(
  path: string,
  cutFor: (photo: Size) => Cut,
  options: FileOptions,
): Promise<RenderedPicture> {
  try {
    const photo = await openPhoto(path);
    const metadata = await photo.metadata();
    const cut = cutFor(metadata.autoOrient);
    if (!isInsidePhoto(cut.crop, cut.photo, cut.degrees)) throw outsidePhoto();
    const placement = placementOf(cut);
    const plan = colourPlan(metadata, options.profile, options.format);
    const picture = isPlain(cut, placement)
      ? straight(photo, cut, placement, plan)
      : await turned(photo, cut, placement, plan);
    const isReduced = placement.picture.width < widthOf(placement.taken);
    const sharpened = options.sharpen && isReduced ? picture.sharpen(SHARPENING) : picture;
    const dense = options.ppi === undefined ? sharpened : sharpened.withDensity(options.ppi);
    const told = await withTold(endColours(dense, plan), metadata, cut, placement.file, options.metadata);
    const { data, info } = await encoded(told, options.format, options.quality).toBuffer({ resolveWithObject: true });
    return {
      bytes: data,
      size: { width: info.width, height: info.height },
      isEnlarged: cut.trimmed.width > Math.ceil(widthOf(cut.crop)) + 1,
    };
  } catch (error) {
    throw asPhotoError(error);
  }
}

function outsidePhoto(): PhotoError {
  return new PhotoError(
    'unusable-crop',
    'A corner of the crop lies outside the photo, and the file would have an empty corner. Move it inward; selvedge fix does so with main crops.',
  );
}

/** Rounding a crop to whole pixels shows only in a picture that is made larger. */
function isPlain({ degrees }: Cut, { taken, picture }: Placement): boolean {
  if (degrees !== 0) return false;
  const isWhole = EDGE_NAMES.every((edge) => Math.abs(taken[edge] - Math.round(taken[edge])) < 1e-6);
  return isWhole || picture.width <= widthOf(taken) + 1;
}

/** Whole pixels of the photo, and one resize. */
function straight(photo: Sharp, cut: Cut, placement: Placement, plan: ColourPlan): Sharp {
  const region = wholeRegion(placement, cut.photo);
  return finished(beginColours(photo, plan).autoOrient().extract(region), placement, region);
}

function wholeRegion({ taken }: Placement, photo: Size): Region {
  const left = Math.min(Math.max(0, Math.round(taken.left)), photo.width - 1);
  const top = Math.min(Math.max(0, Math.round(taken.top)), photo.height - 1);
  const right = Math.min(Math.max(left + 1, Math.round(taken.right)), photo.width);
  const bottom = Math.min(Math.max(top + 1, Math.round(taken.bottom)), photo.height);
  return { left, top, width: right - left, height: bottom - top };
}

async function turned(photo: Sharp, cut: Cut, placement: Placement, plan: ColourPlan): Promise<Sharp> {
  const { source, margin, matrix, shift, piece } = turnOf(cut.photo, cut.degrees, placement.taken, placement.picture);
  const sides = { left: margin, top: margin, right: margin, bottom: margin };
  const part = photo
    .autoOrient()
    .extract(source)
    .extend({ ...sides, extendWith: 'copy' });
  const canvas = (await reopenPixels(await stored(part, plan))).affine([...matrix], {
    odx: shift.x,
    ody: shift.y,
    interpolator: 'bicubic',
  });
  const cutOut = beginColours(await reopenPixels(await stored(canvas, plan)), plan).extract(piece);
  return finished(cutOut, placement, piece);
}

/** Between two steps: every value as it is, with its depth and profile; grey and CMYK become sRGB here. */
function stored(picture: Sharp, { isColour, isDeepPhoto }: ColourPlan): Promise<Buffer> {
  const deep = isDeepPhoto ? picture.toColourspace('rgb16') : picture;
  return (isColour ? deep.keepIccProfile() : deep).tiff({ compression: 'none', bigtiff: true }).toBuffer();
}

/** To the file's size, the mirror image around it where the photo ends inside the bleed. */
function finished(picture: Sharp, { picture: size, mirrored }: Placement, { width, height }: Region): Sharp {
  const isSame = width === size.width && height === size.height;
  const sized = isSame ? picture : picture.resize(size.width, size.height, { fit: 'fill' });
  const isWhole = EDGE_NAMES.every((edge) => mirrored[edge] === 0);
  return isWhole ? sized : sized.extend({ ...mirrored, extendWith: 'mirror' });
}
