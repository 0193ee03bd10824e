import { inParallel } from '../in-parallel.ts';
import { WHOLE_PHOTO } from '../../geometry/shapes.ts';
import type { MakePicture, Picture } from '../pictures.ts';
import type { Review, ReviewedFrame, ReviewSide } from './review.ts';

/** The pictures of one reviewed frame; absent where there is no photo to make one of. */
export interface ReviewPictures {
  readonly then?: Picture;
  readonly now?: Picture;
  /** The whole photo, not turned. */
  readonly whole?: Picture;
  /** Of the crops of single outputs, in the frame's order. */
  readonly outputs?: readonly Pick<ReviewPictures, 'then' | 'now'>[];
}

const AT_ONCE = 3;
/** Pixels of the longer edge, while a page has at most so many frames. Some twenty frames a megabyte at the least. */
const SIZES = [
  { frames: 60, longEdge: 760 },
  { frames: 400, longEdge: 420 },
] as const;

export interface PictureOptions {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: { readonly done: number; readonly total: number }) => void;
}

/**
 * Pictures of all frames of a review, in their order. Of a page with hundreds of frames they are smaller; beyond four
 * hundred there are none.
 * @throws the signal's reason when it aborts
 */
export async function reviewPictures(
  { frames }: Review,
  make: MakePicture,
  { signal, onProgress }: PictureOptions = {},
): Promise<readonly ReviewPictures[]> {
  const size = SIZES.find(({ frames: most }) => frames.length <= most);
  if (!size) return frames.map(() => ({}));
  let done = 0;
  return inParallel(frames, AT_ONCE, async (frame) => {
    signal?.throwIfAborted();
    const pictures = await picturesOf(frame, make, size.longEdge);
    onProgress?.({ done: ++done, total: frames.length });
    return pictures;
  });
}

async function picturesOf(frame: ReviewedFrame, make: MakePicture, longEdge: number): Promise<ReviewPictures> {
  const { photoPath } = frame;
  if (photoPath === undefined) return {};
  const of = async (side: ReviewSide | undefined, crop = side?.check.crop): Promise<Picture | undefined> =>
    side && crop && (await make(photoPath, crop, side.check.straighten, longEdge));
  // The photo of then is gone when its bytes have changed.
  const sideThen = frame.isPhotoChanged ? undefined : frame.then;
  const then = await of(sideThen);
  const now = await of(frame.now);
  const whole = await make(photoPath, WHOLE_PHOTO, 0, longEdge);
  const outputs: Pick<ReviewPictures, 'then' | 'now'>[] = [];
  for (const output of frame.outputs) {
    const before = output.then && (await of(sideThen, output.then));
    const after = output.now && (await of(frame.now, output.now));
    outputs.push({ ...(before && { then: before }), ...(after && { now: after }) });
  }
  return { ...(then && { then }), ...(now && { now }), ...(whole && { whole }), outputs };
}
