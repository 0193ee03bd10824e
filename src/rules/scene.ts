import type { Edges, Point, Size } from '../geometry/shapes.ts';
import { heightOf, widthOf } from '../geometry/shapes.ts';
import { figureOf, isFaceInCrop, isInCrop, type Figure } from '../people/figure.ts';
import type { Length } from '../people/lengths.ts';
import { foundLength } from '../people/length-spans.ts';
import type { Horizon, Person, Symmetry, Tilt } from '../people/person.ts';
import { subjectsOf } from '../people/subjects.ts';

export const COMPOSITIONS = ['thirds', 'centred', 'free'] as const;
export type Composition = (typeof COMPOSITIONS)[number];

/** What an output on paper, or with bleed, asks of its crop. */
export interface Print {
  /** The long side on paper, in inches; absent when the output is not for paper. */
  readonly inches?: number;
  /** Picture beyond the trimmed edge, and what must stay free inside it, in shares of the crop's width and height. */
  readonly bleed: Point;
  readonly safe: Point;
}

/** What a frame is: its photo, its crop, what was asked, and the people in it. */
export interface SceneInput {
  /** Of the oriented photo, in pixels. */
  readonly photo: Size;
  /** The manifest's `straighten`. */
  readonly degrees: number;
  /** The crop's edge lines in pixels of the turned picture. */
  readonly crop: Edges;
  /** Width over height that was asked for; undefined when the shape is free. */
  readonly shape: number | undefined;
  readonly composition: Composition;
  readonly askedLength: Length | undefined;
  readonly people: readonly Person[];
  /** Ids that the frame names. */
  readonly subjects: readonly number[] | undefined;
  /** As the people file has them: the `straighten` that would level the photo, and where its horizon runs. */
  readonly tilt?: Tilt | undefined;
  readonly horizon?: Horizon | undefined;
  /** About which upright line the photo's own structure is symmetric. */
  readonly symmetry?: Symmetry | undefined;
  /** Only where the crop is an output's. */
  readonly print?: Print | undefined;
}

/** A frame as the rules see it. Everything in pixels of the turned picture. */
export interface Scene extends SceneInput {
  readonly figures: readonly Figure[];
  /** The people that count. */
  readonly counted: readonly Figure[];
  /** The tallest of them; the lower edge on that person gives the length. */
  readonly tallest: Figure | undefined;
  /** Those of them whose face is in the present crop. */
  readonly facing: readonly Figure[];
  readonly upright: boolean;
  readonly length: Length | undefined;
  /** Only the present crop is asked about: rules may leave out what cannot hold for it. */
  readonly isFixed?: boolean | undefined;
}

export function sceneOf(input: SceneInput): Scene {
  const figures = input.people.map((person) => figureOf(person, input.photo, input.degrees));
  const subjects = subjectsOf(input.people, input.subjects);
  const counted =
    subjects.length === figures.length
      ? figures
      : figures.filter((figure) => subjects.some((person) => person.id === figure.id));
  return sceneWith(input, figures, counted);
}

/** The same frame with another crop. */
export function withCrop(scene: Scene, crop: Edges): Scene {
  return sceneWith({ ...scene, crop }, scene.figures, scene.counted);
}

/** The same frame turned to other degrees, with the edge lines of a crop in that picture. */
export function turnedTo(scene: Scene, degrees: number, crop: Edges): Scene {
  return sceneOf({ ...scene, degrees, crop });
}

function sceneWith(
  input: SceneInput & Pick<Scene, 'isFixed'>,
  figures: readonly Figure[],
  counted: readonly Figure[],
): Scene {
  const { crop } = input;
  const tallest = tallestOf(counted, (figure) => isInCrop(figure, crop)) ?? tallestOf(counted, () => true);
  // Written out: every scene then has the same shape, and copies of it are ten times faster.
  return {
    photo: input.photo,
    degrees: input.degrees,
    crop,
    shape: input.shape,
    composition: input.composition,
    askedLength: input.askedLength,
    people: input.people,
    subjects: input.subjects,
    tilt: input.tilt,
    horizon: input.horizon,
    symmetry: input.symmetry,
    print: input.print,
    figures,
    counted,
    tallest,
    facing: counted.filter((figure) => isFaceInCrop(figure, crop)),
    upright: heightOf(crop) > widthOf(crop),
    length: input.askedLength ?? (tallest && foundLength(tallest, crop)),
    isFixed: input.isFixed,
  };
}

/** The first of the tallest. */
function tallestOf(figures: readonly Figure[], isAsked: (figure: Figure) => boolean): Figure | undefined {
  let tallest: Figure | undefined;
  for (const figure of figures) {
    if (isAsked(figure) && !(tallest && tallest.height >= figure.height)) tallest = figure;
  }
  return tallest;
}
