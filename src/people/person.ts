import type { Point, Size } from '../geometry/shapes.ts';
import type { PointName } from './points.ts';

/** A point that was measured or placed by hand; the confidence is 0 to 1 (see confidence.ts for what it means). */
export interface MeasuredPoint extends Point {
  readonly confidence: number;
}

/** The points of one person that are known. Unit and frame are said by whoever uses them. */
export type Places = Readonly<Partial<Record<PointName, MeasuredPoint | undefined>>>;

/**
 * One person of a photo as the people file has it. All places are fractions of the oriented photo's width and height,
 * not turned; values outside 0 to 1 are legal (a joint beyond the frame).
 */
export interface Person {
  readonly id: number;
  /** `hand`: somebody corrected this person; measuring again never changes it. */
  readonly source: 'model' | 'hand';
  /** left, top, width, height of what is seen of the person. */
  readonly box: readonly [number, number, number, number];
  readonly points: Places;
  /** The highest point of hair or headwear as seen. */
  readonly headTop?: MeasuredPoint;
  readonly chin?: MeasuredPoint;
  /** A closed polygon around what is seen of the person, at most 64 corners. */
  readonly outline?: readonly Point[];
  /** Closed polygons inside the outline through which the background is seen: between arm and trunk, between the legs. */
  readonly gaps?: readonly (readonly Point[])[];
}

/** The `straighten` value that would level the photo; a confidence under `SURE_LINES` is no answer. */
export interface Tilt {
  readonly degrees: number;
  readonly confidence: number;
}

/** Height of the horizon at the photo's middle column, as a fraction of the photo's height; sure like a tilt. */
export interface Horizon {
  readonly y: number;
  readonly confidence: number;
}

/**
 * Where the photo's own structure, outside people, is symmetric about an upright axis: at the photo's middle row, as a
 * fraction of the photo's width; sure like a tilt. Absent: it is not, or too little tells.
 */
export interface Symmetry {
  readonly x: number;
  readonly confidence: number;
}

/** From this confidence on, what was seen of the photo's lines counts. */
export const SURE_LINES = 0.5;

/** One line of the people file: what was measured in one photo. */
export interface PhotoPeople {
  /** As in the manifest, relative to the photos folder, with `/`. */
  readonly photo: string;
  /** Of the oriented photo, in pixels. */
  readonly size: Size;
  /** `sha256:` and 64 hex digits, of the file's bytes. Absent: trusted. */
  readonly digest?: string;
  readonly people: readonly Person[];
  readonly tilt?: Tilt;
  readonly horizon?: Horizon;
  readonly symmetry?: Symmetry;
  /** Name and version of what measured. */
  readonly by?: string;
}
