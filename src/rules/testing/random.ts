import fc from 'fast-check';
import type { MeasuredPoint, Person } from '../../people/person.ts';
import type { PointName } from '../../people/points.ts';
import { POINT_NAMES } from '../../people/points.ts';
import { LENGTHS } from '../../people/lengths.ts';
import type { SceneInput } from '../scene.ts';
import { COMPOSITIONS } from '../scene.ts';

/** Places in and around the photo, in steps that no pixel grid shares; half of them fall on a few places only. */
const fraction = fc.oneof(
  fc.integer({ min: -498, max: 1495 }).map((steps) => steps / 997),
  fc.constantFrom(101 / 997, 499 / 997, 503 / 997),
);
const confidence = fc.constantFrom(0, 0.3, 0.5, 0.75, 1);
const measured: fc.Arbitrary<MeasuredPoint> = fc.record({ x: fraction, y: fraction, confidence });

const points: fc.Arbitrary<Person['points']> = fc
  .array(fc.tuple(fc.constantFrom(...POINT_NAMES.slice(0, 30)), measured), { maxLength: 30 })
  .map((named) => Object.fromEntries(named) as Partial<Record<PointName, MeasuredPoint>>);

/** Anybody: points missing, outside the photo, on top of each other, in no order that a body has. */
export const anybody: fc.Arbitrary<Person> = fc
  .record(
    {
      source: fc.constantFrom('model' as const, 'hand' as const),
      box: fc.tuple(fraction, fraction, fraction.map(Math.abs), fraction.map(Math.abs)),
      points,
      headTop: measured,
      chin: measured,
      outline: fc.array(fc.record({ x: fraction, y: fraction }), { maxLength: 12 }),
    },
    { requiredKeys: ['source', 'box', 'points'] },
  )
  .map((person): Person => ({ ...person, id: 1 }));

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
    crop: { ...frame.crop, left: width - frame.crop.right, right: width - frame.crop.left },
    people: frame.people.map((person) => ({
      ...person,
      box: [1 - person.box[0] - person.box[2], person.box[1], person.box[2], person.box[3]] as const,
      points: Object.fromEntries(Object.entries(person.points).map(([name, point]) => [swapSides(name), flip(point)])),
      ...(person.headTop && { headTop: flip(person.headTop) }),
      ...(person.chin && { chin: flip(person.chin) }),
      ...(person.outline && { outline: person.outline.map(flip) }),
    })),
  };
}
