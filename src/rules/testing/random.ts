import fc from 'fast-check';
import { LENGTHS } from '../../people/lengths.ts';
import { anybody } from '../../people/testing/anybody.ts';
import type { SceneInput } from '../scene.ts';
import { COMPOSITIONS } from '../scene.ts';
import { foundPlaces } from '../../people/places.ts';

const confidence = fc.constantFrom(0.2, 0.5, 0.9);

/** Any frame of up to four such people; the crop may lie anywhere. */
export const anyFrame: fc.Arbitrary<SceneInput> = fc
  .record({
    people: fc.array(anybody, { maxLength: 4 }),
    degrees: fc.oneof(
      fc.constant(0),
      fc.integer({ min: -4500, max: 4500 }).map((hundredths) => hundredths / 100),
    ),
    left: fc.integer({ min: -200, max: 3000 }),
    top: fc.integer({ min: -200, max: 5000 }),
    width: fc.integer({ min: 1, max: 4000 }),
    height: fc.integer({ min: 1, max: 6000 }),
    shape: fc.constantFrom(undefined, 2 / 3, 1, 16 / 9),
    composition: fc.constantFrom(...COMPOSITIONS),
    askedLength: fc.constantFrom(undefined, undefined, ...LENGTHS),
    tilt: fc.option(
      fc.record({ degrees: fc.integer({ min: -90, max: 90 }).map((tenths) => tenths / 10), confidence }),
      {
        nil: undefined,
      },
    ),
    horizon: fc.option(fc.record({ y: fc.double({ min: -0.5, max: 1.5, noNaN: true }), confidence }), {
      nil: undefined,
    }),
    symmetry: fc.option(fc.record({ x: fc.double({ min: 0, max: 1, noNaN: true }), confidence }), { nil: undefined }),
  })
  .map(({ people, left, top, width, height, ...frame }) => ({
    ...frame,
    photo: { width: 4000, height: 6000 },
    crop: { left, top, right: left + width, bottom: top + height },
    people: people.map((person, index) => ({ ...person, id: index + 1 })),
    subjects: undefined,
  }));

/** Left for right and right for left in a name. */
export function swapSides(name: string): string {
  return name.replace(/left|right/, (side) => (side === 'left' ? 'right' : 'left'));
}

/** The frame as a mirror shows it. */
export function mirrored(frame: SceneInput): SceneInput {
  const { width } = frame.photo;
  const flip = <P extends { readonly x: number }>(point: P): P => ({ ...point, x: 1 - point.x });
  return {
    ...frame,
    degrees: -frame.degrees,
    symmetry: frame.symmetry && { ...frame.symmetry, x: 1 - frame.symmetry.x },
    tilt: frame.tilt && { ...frame.tilt, degrees: -frame.tilt.degrees },
    crop: { ...frame.crop, left: width - frame.crop.right, right: width - frame.crop.left },
    people: frame.people.map((person) => ({
      ...person,
      box: [1 - person.box[0] - person.box[2], person.box[1], person.box[2], person.box[3]] as const,
      points: Object.fromEntries(foundPlaces(person.points).map(([name, point]) => [swapSides(name), flip(point)])),
      ...(person.headTop && { headTop: flip(person.headTop) }),
      ...(person.chin && { chin: flip(person.chin) }),
      ...(person.outline && { outline: person.outline.map(flip) }),
      ...(person.gaps && { gaps: person.gaps.map((gap) => gap.map(flip)) }),
    })),
  };
}
