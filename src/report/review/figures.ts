import type { ReviewedFrame, ReviewSide } from '../../session/review/review.ts';
import type { ReviewPictures } from '../../session/review/review-pictures.ts';
import type { Picture } from '../../session/pictures.ts';
import { text } from '../html/escape.ts';
import { croppedBodies, wholePhoto, type DrawnCrop } from '../html/geometry.ts';

/** Then and now side by side, and both crops on the whole photo. */
export function figures(frame: ReviewedFrame, { then, now, whole }: ReviewPictures): string {
  const all = [
    frame.then && sideFigure(frame, frame.then, 'then', then),
    frame.now && sideFigure(frame, frame.now, 'now', now),
    wholeFigure(frame, whole),
  ].filter((figure) => figure !== undefined);
  return `<div class="figures${all.length < 3 ? ' one' : ''}">${all.join('\n')}</div>`;
}

const CAPTIONS = { then: 'Then', now: 'Now' } as const;

function sideFigure(frame: ReviewedFrame, side: ReviewSide, as: 'then' | 'now', picture: Picture | undefined): string {
  const { crop, straighten } = side.check;
  const label = `${frame.name}, the picture ${as === 'then' ? 'as it was' : 'as it is now'}`;
  const caption = [CAPTIONS[as], pixelWords(side)].filter((words) => words !== '').join(', ');
  const isOldPhotoGone = as === 'then' && frame.isPhotoChanged;
  let drawn: string;
  if (picture) drawn = `<img src="${text(picture.address)}" alt="${text(label)}">`;
  else if (side.size) {
    drawn = croppedBodies(side.size, { crop, degrees: straighten }, side.measured?.people ?? [], label);
  } else drawn = '<p class="quiet">Neither the photo is here nor was it measured: there is nothing to draw.</p>';
  const why = picture
    ? ''
    : isOldPhotoGone
      ? ' (drawn: the photo of then is not here)'
      : ' (drawn from the people file)';
  return `<figure><div class="frame" data-side="${as}">${drawn}</div><figcaption>${text(caption + why)}</figcaption></figure>`;
}

function wholeFigure(frame: ReviewedFrame, picture: Picture | undefined): string | undefined {
  const side = frame.now ?? frame.then!;
  if (!side.size) return undefined;
  const crops = [drawnCrop(frame.then, 'then'), drawnCrop(frame.now, 'now')].filter((crop) => crop !== undefined);
  const people = side.measured?.people ?? [];
  const label = `${frame.name}, the whole photo with its crops`;
  return `<figure><div class="frame">${wholePhoto(side.size, { picture, people, crops, label })}</div><figcaption>In the photo</figcaption></figure>`;
}

function drawnCrop(side: ReviewSide | undefined, as: 'then' | 'now'): DrawnCrop | undefined {
  return side && { crop: side.check.crop, degrees: side.check.straighten, as };
}

/** `2400 × 3600 px` */
function pixelWords({ check, size }: ReviewSide): string {
  if (!size) return '';
  return `${Math.round(check.crop.w * size.width)} × ${Math.round(check.crop.h * size.height)} px`;
}
