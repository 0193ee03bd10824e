import type { Rectangle } from '../../geometry/shapes.ts';
import type { ReviewedFrame, ReviewSide } from '../../session/review/review.ts';
import type { ReviewPictures } from '../../session/review/review-pictures.ts';
import type { Picture } from '../../session/pictures.ts';
import { text } from '../html/escape.ts';
import { croppedBodies, wholePhoto, type DrawnCrop } from '../html/geometry.ts';

/** One of the two moments, with the crop that is shown of it: the frame's, or an output's own. */
interface Shown {
  readonly side: ReviewSide;
  readonly crop: Rectangle;
}

/** Then and now side by side, and both crops on the whole photo. */
export function figures(frame: ReviewedFrame, pictures: ReviewPictures): string {
  const shown = (side: ReviewSide | undefined): Shown | undefined => side && { side, crop: side.check.crop };
  return row(frame, frame.name, { then: shown(frame.then), now: shown(frame.now) }, pictures);
}

/** The same of each output whose own crop is another one; an output without one of its own is not shown. */
export function outputFigures(frame: ReviewedFrame, { whole, outputs = [] }: ReviewPictures): string {
  return frame.outputs
    .map(({ output, then, now }, place) => {
      const shown = (side: ReviewSide | undefined, crop: Rectangle | undefined): Shown | undefined =>
        side && crop && { side, crop };
      const sides = { then: shown(frame.then, then), now: shown(frame.now, now) };
      const drawn = row(frame, `${frame.name} for ${output}`, sides, { ...outputs[place], ...(whole && { whole }) });
      return `<div class="output"><h3>Output ${text(output)}</h3>${drawn}</div>`;
    })
    .join('\n');
}

type Sides = Readonly<Record<'then' | 'now', Shown | undefined>>;

function row(frame: ReviewedFrame, name: string, sides: Sides, { then, now, whole }: ReviewPictures): string {
  const all = [
    sideFigure(frame, name, sides.then, 'then', then),
    sideFigure(frame, name, sides.now, 'now', now),
    wholeFigure(frame, name, sides, whole),
  ].filter((figure) => figure !== undefined);
  return `<div class="figures${all.length < 3 ? ' one' : ''}">${all.join('\n')}</div>`;
}

const CAPTIONS = { then: 'Then', now: 'Now' } as const;

function sideFigure(
  frame: ReviewedFrame,
  name: string,
  shown: Shown | undefined,
  as: 'then' | 'now',
  picture: Picture | undefined,
): string | undefined {
  if (!shown) return undefined;
  const { side, crop } = shown;
  const label = `${name}, the picture ${as === 'then' ? 'as it was' : 'as it is now'}`;
  const caption = [CAPTIONS[as], pixelWords(shown)].filter((words) => words !== '').join(', ');
  const isOldPhotoGone = as === 'then' && frame.isPhotoChanged;
  let drawn: string;
  if (picture) drawn = `<img src="${text(picture.address)}" alt="${text(label)}">`;
  else if (side.size) {
    const people = side.measured?.people ?? [];
    drawn = croppedBodies(side.size, { crop, degrees: side.check.straighten }, people, label);
  } else drawn = '<p class="quiet">Neither the photo is here nor was it measured: there is nothing to draw.</p>';
  const why = picture
    ? ''
    : isOldPhotoGone
      ? ' (drawn: the photo of then is not here)'
      : ' (drawn from the people file)';
  return `<figure><div class="frame" data-side="${as}">${drawn}</div><figcaption>${text(caption + why)}</figcaption></figure>`;
}

function wholeFigure(
  frame: ReviewedFrame,
  name: string,
  { then, now }: Sides,
  picture: Picture | undefined,
): string | undefined {
  const side = frame.now ?? frame.then!;
  if (!side.size) return undefined;
  const crops = [drawnCrop(then, 'then'), drawnCrop(now, 'now')].filter((crop) => crop !== undefined);
  const people = side.measured?.people ?? [];
  const label = `${name}, the whole photo with its crops`;
  return `<figure><div class="frame">${wholePhoto(side.size, { picture, people, crops, label })}</div><figcaption>In the photo</figcaption></figure>`;
}

function drawnCrop(shown: Shown | undefined, as: 'then' | 'now'): DrawnCrop | undefined {
  return shown && { crop: shown.crop, degrees: shown.side.check.straighten, as };
}

/** `2400 × 3600 px` */
function pixelWords({ side: { size }, crop }: Shown): string {
  if (!size) return '';
  return `${Math.round(crop.w * size.width)} × ${Math.round(crop.h * size.height)} px`;
}
