import type { Rectangle } from '../../geometry/shapes.ts';
import type { InitReport } from '../init.ts';
import type { MeasureProgress, MeasureReport } from '../measure.ts';
import type { PhotoState } from '../photo-states.ts';
import type { PhotosFolder } from '../photos-folder.ts';

/** Goes up with every change to the messages; both ends must have the same. */
export const PHOTO_ROOM_PROTOCOL = 3;

/** What an editor may ask of the process that touches pixels for it, and what that answers. */
export interface Exchanges {
  /** What the disk says of photos. */
  readonly states: {
    readonly question: {
      readonly folder: PhotosFolder;
      /** Each with the digest that its people were measured with. */
      readonly photos: readonly { readonly photo: string; readonly digest?: string }[];
    };
    readonly answer: readonly (readonly [string, PhotoState])[];
  };
  /** A picture of a crop, as a file in the user's cache. */
  readonly thumbnail: {
    readonly question: {
      readonly path: string;
      readonly crop: Rectangle;
      readonly degrees: number;
      readonly longEdge: number;
    };
    readonly answer: { readonly file: string };
  };
  /** A part of a photo, or all of it, not turned and as sharp as is asked for, as a file in the user's cache. */
  readonly detail: {
    readonly question: { readonly path: string; readonly region: Rectangle; readonly longEdge: number };
    readonly answer: { readonly file: string };
  };
  /** Measures what is not measured and writes the people file. */
  readonly measure: {
    readonly question: { readonly path: string; readonly text: string; readonly photosFolder?: string };
    readonly answer: MeasureReport;
  };
  /** Writes a manifest for a folder of pictures. */
  readonly init: {
    readonly question: { readonly folder: string };
    readonly answer: InitReport;
  };
}

export type Task = keyof Exchanges;

export type Request = {
  readonly [Kind in Task]: { readonly id: number; readonly task: Kind; readonly question: Exchanges[Kind]['question'] };
}[Task];

/** From the editor. `stop` gives up a request that is under way; it is still answered. */
export type ToPhotoRoom = Request | { readonly id: number; readonly task: 'stop' };

/** To the editor. */
export type FromPhotoRoom =
  | { readonly kind: 'ready'; readonly protocol: number }
  | { readonly kind: 'progress'; readonly id: number; readonly progress: MeasureProgress }
  | { readonly kind: 'answer'; readonly id: number; readonly answer: Exchanges[Task]['answer'] }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string };
