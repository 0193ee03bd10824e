import { figureOf, type Figure } from '../../../src/people/figure.ts';
import type { Person } from '../../../src/people/person.ts';
import type { LabelledPerson, LabelledPhoto } from './labels.ts';
import { labelledPeopleOf } from './labelled-people.ts';
import type { MeasuredPhoto } from './measured.ts';
import { heightsOfLabels, type Heights } from './widths.ts';

/** Somebody who was both measured and labelled; pixels of the photo. */
export interface Pair {
  readonly name: string;
  readonly photo: LabelledPhoto;
  readonly labelled: LabelledPerson;
  readonly found: Person;
  readonly measuredFigure: Figure;
  readonly labelledFigure: Figure;
  /** Where the labels have this person at each height. */
  readonly truth: (heights: readonly number[]) => Heights;
}

/** Everybody who was found, with what the labels say of them. */
export function pairsOf(photos: readonly MeasuredPhoto[]): Pair[] {
  return photos.flatMap(({ labelled: photo, matches }) => {
    const people = labelledPeopleOf(photo).people;
    return matches.flatMap(({ labelled, found }): Pair[] => {
      const person = people.find(({ id }) => id === labelled.id);
      if (!found || !person) return [];
      return [
        {
          name: `${photo.name} ${labelled.id}`,
          photo,
          labelled,
          found,
          measuredFigure: figureOf(found, photo.size, 0),
          labelledFigure: figureOf(person, photo.size, 0),
          truth: heightsOfLabels(labelled, photo),
        },
      ];
    });
  });
}
