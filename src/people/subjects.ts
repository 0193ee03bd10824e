import type { Person } from './person.ts';

/** A person at least this share as tall as the tallest is a subject (common practice, no source). */
const SUBJECT_HEIGHT = 0.5;

/**
 * The people that count: those whose box is at least half as tall as the tallest person's, or those whom the frame
 * names. Ids that nobody has are left out (the caller reports them).
 */
export function subjectsOf(people: readonly Person[], named: readonly number[] | undefined): Person[] {
  if (named) return people.filter((person) => named.includes(person.id));
  let tallest = 0;
  for (const { box } of people) tallest = Math.max(tallest, box[3]);
  return people.filter((person) => person.box[3] >= SUBJECT_HEIGHT * tallest);
}
