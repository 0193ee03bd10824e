import type { Person } from '../../../src/people/person.ts';
import type { PointName } from '../../../src/people/points.ts';
import { sizeOfPerson, type LabelledPerson, type LabelledPhoto } from './labels.ts';
import { pixelPoints, type MeasuredPhoto } from './measured.ts';

/** How far one measured point is from its label. */
export interface PointError {
  readonly photo: string;
  readonly name: PointName;
  /** In percent of the person's size. */
  readonly percent: number;
  readonly confidence: number;
}

export interface FoundPerson {
  readonly photo: LabelledPhoto;
  readonly labelled: LabelledPerson;
  readonly found: Person;
  readonly oks: number;
}

/** The labelled people who were found: similarity at least 0.5. */
export function foundPeople(photos: readonly MeasuredPhoto[]): FoundPerson[] {
  return photos.flatMap(({ labelled: photo, matches }) =>
    matches.flatMap(({ labelled, found, oks }) =>
      found !== undefined && oks >= 0.5 ? [{ photo, labelled, found, oks }] : [],
    ),
  );
}

/** Errors of the labelled points that were measured too, on the people who were found. */
export function pointErrors(photos: readonly MeasuredPhoto[], isWanted: (name: PointName) => boolean): PointError[] {
  return foundPeople(photos).flatMap(({ photo, labelled, found }) => {
    const measured = pixelPoints(found, photo);
    return [...labelled.points].flatMap(([name, truth]): PointError[] => {
      const point = measured.get(name);
      if (point === undefined || !isWanted(name)) return [];
      const percent = (100 * Math.hypot(point.x - truth.x, point.y - truth.y)) / sizeOfPerson(labelled);
      return [{ photo: photo.name, name, percent, confidence: point.confidence }];
    });
  });
}

/** The share of numbers at or under a limit, 0 to 1. */
export function shareWithin(numbers: readonly number[], limit: number): number {
  return numbers.filter((number) => number <= limit).length / numbers.length;
}
