import type { Person, PhotoPeople } from './person.ts';

/** From this overlap on (intersection over union of the boxes) two people are the same one, measured twice. */
const SAME_PERSON = 0.3;

interface Match {
  readonly earlier: Person;
  readonly measured: Person;
  readonly overlap: number;
}

/**
 * What a photo's line becomes when it is measured again: people keep their ids by overlap, new people get the next
 * free id, and whoever was corrected by hand stays as they are.
 */
export function mergeMeasured(earlier: PhotoPeople | undefined, measured: PhotoPeople): PhotoPeople {
  if (!earlier) return measured;
  const matches = matchPeople(earlier.people, measured.people);
  let nextId = Math.max(0, ...earlier.people.map((person) => person.id)) + 1;
  const again = measured.people.flatMap((person) => {
    const known = matches.get(person);
    if (known?.source === 'hand') return [];
    return [{ ...person, id: known ? known.id : nextId++ }];
  });
  const byHand = earlier.people.filter((person) => person.source === 'hand');
  const people = [...byHand, ...again].sort((first, second) => first.id - second.id);
  return { ...measured, people };
}

/** Who is who, each once, the largest overlaps first. */
function matchPeople(earlier: readonly Person[], measured: readonly Person[]): Map<Person, Person> {
  const candidates = earlier
    .flatMap((before) =>
      measured.map((now): Match => ({ earlier: before, measured: now, overlap: overlapOf(before.box, now.box) })),
    )
    .filter(({ overlap }) => overlap >= SAME_PERSON)
    .sort((first, second) => second.overlap - first.overlap);
  const matches = new Map<Person, Person>();
  const taken = new Set<Person>();
  for (const match of candidates) {
    if (matches.has(match.measured) || taken.has(match.earlier)) continue;
    matches.set(match.measured, match.earlier);
    taken.add(match.earlier);
  }
  return matches;
}

/** Intersection over union of two boxes (left, top, width, height). */
function overlapOf(first: Person['box'], second: Person['box']): number {
  const width = Math.min(first[0] + first[2], second[0] + second[2]) - Math.max(first[0], second[0]);
  const height = Math.min(first[1] + first[3], second[1] + second[3]) - Math.max(first[1], second[1]);
  if (width <= 0 || height <= 0) return 0;
  const common = width * height;
  return common / (first[2] * first[3] + second[2] * second[3] - common);
}
