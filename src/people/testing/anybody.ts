import fc from 'fast-check';
import type { MeasuredPoint, Person } from '../person.ts';
import type { PointName } from '../points.ts';
import { POINT_NAMES } from '../points.ts';

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
